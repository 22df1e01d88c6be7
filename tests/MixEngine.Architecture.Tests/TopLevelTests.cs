namespace MixEngine.Architecture.Tests;

public class TopLevelTests
{
    private static readonly string[] Allowed =
    [
        "README.md", "DEVELOPERS.md", "LICENSE", "protos", "MixEngine.sln", "src", "tests", "clients", "benchmarks",
        "Directory.Build.props", "Directory.Packages.props", "Directory.Build.targets", "global.json", "nuget.config",

        // The test platform insists on a folder for its results; git ignores it.
        "TestResults",
    ];

    [Fact]
    public void Top_level_holds_only_what_belongs_there() =>
        Assert.Empty(Directory.EnumerateFileSystemEntries(Repository.Root).Select(entry => Path.GetFileName(entry)!).Where(name => !name.StartsWith('.')).Except(Allowed));

    [Fact]
    public void Every_project_is_in_the_solution()
    {
        var solution = File.ReadAllText(Path.Combine(Repository.Root, "MixEngine.sln"));
        var projects = new[] { "src", "tests", "clients", "benchmarks" }
            .Where(folder => Directory.Exists(Path.Combine(Repository.Root, folder)))
            .SelectMany(folder => Directory.EnumerateFiles(Path.Combine(Repository.Root, folder), "*.csproj", SearchOption.AllDirectories))
            .Select(Path.GetFileName);
        Assert.All(projects, project => Assert.Contains($"\\{project}\"", solution, StringComparison.Ordinal));
    }
}
