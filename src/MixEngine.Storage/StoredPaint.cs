namespace MixEngine.Storage;

/// <summary>A bottle on a shelf.</summary>
/// <param name="Id">Short name, unique on its shelf, kept for as long as the bottle is there.</param>
/// <param name="Evidence">What was entered about it.</param>
public sealed record StoredPaint(string Id, PaintEvidence Evidence);
