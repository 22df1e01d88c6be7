using System.Runtime.CompilerServices;

namespace MixEngine.Architecture.Tests;

/// <summary>The repository as files: what these tests look at.</summary>
internal static class Repository
{
    public static string Root { get; } = Path.GetFullPath(Path.Combine(Here(), "..", ".."));

    public static IEnumerable<string> Sources(string folder) =>
        Directory.Exists(Path.Combine(Root, folder))
            ? Directory.EnumerateFiles(Path.Combine(Root, folder), "*.cs", SearchOption.AllDirectories).Where(file => !file.Contains("node_modules", StringComparison.Ordinal))
            : [];

    private static string Here([CallerFilePath] string file = "") => Path.GetDirectoryName(file)!;
}
