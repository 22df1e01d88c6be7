using MixEngine.Cli.Tests.Running;

namespace MixEngine.Cli.Tests;

/// <summary>The first command of the README.</summary>
public sealed class DemoTests : IDisposable
{
    private readonly Home _home = new();

    public void Dispose() => _home.Dispose();

    [Fact]
    public async Task TheStoryAsksTheFiveQuestionsAndSaysWhatToTryNext()
    {
        Outcome story = await _home.RunAsync("demo");
        Outcome again = await _home.RunAsync("demo");

        story.Ended(0);
        string[] said =
        [
            "24 invented paints",
            "$ mixengine predict \"2 tarred rope + 1 kelp\" --shelf demo",
            "$ mixengine ramp \"tarred rope\" kelp \"sea lettuce\" --steps 6 --drops 6 --shelf demo",
            "$ mixengine match \"#5a6b3c\" --paints 3 --drops 6 --shelf demo",
            "$ mixengine glaze \"tide pool\" --medium 6 --coats 3 --over \"#c9c9c9\" --shelf demo",
            "$ mixengine cover \"buoy yellow\" --over black --shelf demo",
            "$ mixengine scheme run",
            "91 figures, 43 areas",
            "The cards are in",
            "the maker's safety sheet",
            "NOW YOU",
        ];
        string unwrapped = string.Join(' ', story.Output.Split([' ', '\n'], StringSplitOptions.RemoveEmptyEntries));
        Assert.All(said, words => Assert.Contains(words, unwrapped, StringComparison.Ordinal));
        Assert.DoesNotContain("\e", story.Output, StringComparison.Ordinal);

        // On standard error only how far the army is; each run has its own number.
        Assert.DoesNotContain("mixengine:", story.Error, StringComparison.Ordinal);
        Assert.Equal(story.Output.Replace("(run 1)", "(run 2)", StringComparison.Ordinal), again.Output);
        Assert.Equal(["demo", "demo-boat"], (await _home.RunAsync("shelf", "list", "--shelves", "--csv")).Ended(0).Csv.Skip(1).Select(row => row[0]));
    }

    [Fact]
    public async Task TheCardsAreWhereItSays()
    {
        Outcome story = (await _home.RunAsync("demo")).Ended(0);
        string folder = story.Output.Split('\n').Single(line => line.Contains("The cards are in", StringComparison.Ordinal)).Split("The cards are in ")[1].Trim();
        Assert.All(new[] { "cards.html", "cards.pdf", "scheme.xlsx", "scheme.json", "tables/steps.csv", "strips/01-net-casters.png" }, file => Assert.True(new FileInfo(Path.Combine(folder, file)).Length > 1000, file));
    }

    [Fact]
    public async Task ItsTableIsATemplateForOnesOwn()
    {
        IReadOnlyList<string[]> table = (await _home.RunAsync("demo", "--csv")).Ended(0).Csv;

        Assert.Equal(25, table.Count);
        Assert.All(table.Skip(1), row => Assert.Contains("invented", row[^1], StringComparison.Ordinal));
    }
}
