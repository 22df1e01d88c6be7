using System.Text.RegularExpressions;

namespace MixEngine.Architecture.Tests;

/// <summary>Inside Core lower never knows higher: a file may name only types of its own folder and of those below.</summary>
public partial class CoreLayersTests
{
    private static readonly string[] BottomUp =
        ["Numerics", "Optics", "Paints", "Mixing", "Characterization", "Films", "Coverage", "Matching", "Ramps", "Schemes"];

    [Fact]
    public void Lower_folder_never_knows_a_higher_one()
    {
        var files = Repository.Sources("src/MixEngine.Core")
            .Select(file => (File: file, Folder: Path.GetRelativePath(Path.Combine(Repository.Root, "src/MixEngine.Core"), file).Split(Path.DirectorySeparatorChar)[0])).ToArray();
        Assert.NotEmpty(files);
        Assert.All(files, file => Assert.Contains(file.Folder, BottomUp));

        // A type has its file's name; comments may point anywhere.
        var layerOf = files.ToLookup(file => Path.GetFileNameWithoutExtension(file.File), file => Array.IndexOf(BottomUp, file.Folder)).ToDictionary(group => group.Key, group => group.Min());
        var faults =
            from file in files
            let layer = Array.IndexOf(BottomUp, file.Folder)
            from name in Words().Matches(Comments().Replace(File.ReadAllText(file.File), "")).Select(match => match.Value).Distinct()
            where layerOf.TryGetValue(name, out var other) && other > layer
            select $"{Path.GetRelativePath(Repository.Root, file.File)} names {name}, which lives in {BottomUp[layerOf[name]]}";
        Assert.Empty(faults);
    }

    [GeneratedRegex(@"//[^\n]*|""(?:\\.|[^""\\\n])*""")]
    private static partial Regex Comments();

    // A name before a parenthesis is a method, unless it is made with new.
    [GeneratedRegex(@"(?<![.\w])[A-Z]\w*(?![\w(])|(?<=\bnew )[A-Z]\w*")]
    private static partial Regex Words();
}
