namespace MixEngine.Reports;

/// <summary>A file of a report.</summary>
/// <param name="Name">Its path below the folder of the report, with '/'.</param>
/// <param name="Content">Its bytes.</param>
public sealed record ReportFile(string Name, byte[] Content);
