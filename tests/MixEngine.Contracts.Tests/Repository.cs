namespace MixEngine.Contracts.Tests;

/// <summary>The repository and its build outputs as files.</summary>
internal static class Repository
{
    private static readonly string Here = AppContext.BaseDirectory.TrimEnd(Path.DirectorySeparatorChar);

    /// <summary>The folder that holds the folder of build outputs, in which these tests run.</summary>
    public static string Root { get; } = Directory.GetParent(Artifacts)!.FullName;

    public static string Artifacts => Path.Combine(Here[..Here.IndexOf(".artifacts", StringComparison.Ordinal)], ".artifacts");

    /// <summary>What another project built in the same configuration as these tests.</summary>
    public static string Built(string project) => Path.GetFullPath(Path.Combine(Here, "..", "..", project, Path.GetFileName(Here)));
}
