using System.Text.RegularExpressions;

namespace MixEngine.Architecture.Tests;

/// <summary>What the code cites, the bibliography names.</summary>
public partial class ReferencesTests
{
    [Fact]
    public void Every_cited_key_is_in_the_bibliography()
    {
        var known = File.ReadLines(Path.Combine(Repository.Root, "src/REFERENCES.md"))
            .Where(line => line.StartsWith("| ", StringComparison.Ordinal)).Select(line => line.Split('|')[1].Trim()).ToHashSet();
        var cited = Repository.Sources("src").SelectMany(file => Keys().Matches(File.ReadAllText(file)).Select(match => (File: Path.GetRelativePath(Repository.Root, file), Key: match.Groups[1].Value))).ToArray();
        Assert.NotEmpty(cited);
        Assert.All(cited, citation => Assert.Contains(citation.Key, known));
    }

    // An author, or several run together, and a year: "[Duncan1940]".
    [GeneratedRegex(@"\[([A-Z][A-Za-z]+(?:18|19|20)\d\d[a-z]?)\]")]
    private static partial Regex Keys();
}
