using MixEngine.Cli.Tests.Running;

namespace MixEngine.Cli.Tests;

/// <summary>What people see is a reviewed file: Expected/*.txt, read with our own eyes.</summary>
public sealed class PageTests : IDisposable
{
    private readonly Home _home = new();

    public void Dispose() => _home.Dispose();

    [Theory]
    [InlineData("predict.txt", 0, "predict", "2 tarred rope + 1 kelp")]
    [InlineData("ramp.txt", 0, "ramp", "tarred rope", "kelp", "--steps", "3")]
    [InlineData("match-out-of-reach.txt", 2, "match", "#ff00ff")]
    [InlineData("glaze.txt", 0, "glaze", "tide pool", "--medium", "6", "--coats", "2", "--over", "#c9c9c9")]
    [InlineData("cover.txt", 2, "cover", "buoy yellow")]
    [InlineData("shelf-list.txt", 0, "shelf", "list")]
    [InlineData("shelf-show.txt", 0, "shelf", "show", "tarred")]
    [InlineData("paint-show.txt", 0, "paint", "show", "tarred")]
    [InlineData("paint-advise.txt", 0, "paint", "advise", "kelp")]
    [InlineData("swatch-add.txt", 0, "swatch", "add", "1 kelp + 4 gull white", "#8a9b7c")]
    [InlineData("swatch-list.txt", 0, "swatch", "list")]
    [InlineData("swatch-import.txt", 0, "swatch", "import", "-", "--dry-run")]
    [InlineData("paint-advise.csv", 0, "paint", "advise", "kelp", "--csv")]
    [InlineData("swatch-list.csv", 0, "swatch", "list", "--csv")]
    [InlineData("swatch-import.csv", 0, "swatch", "import", "-", "--csv")]
    [InlineData("predict.csv", 0, "predict", "2 tarred rope + 1 kelp", "--csv")]
    [InlineData("ramp.csv", 0, "ramp", "tarred rope", "kelp", "--csv")]
    [InlineData("match.csv", 2, "match", "#ff00ff", "--csv")]
    [InlineData("glaze.csv", 0, "glaze", "tide pool", "--over", "#c9c9c9", "--csv")]
    [InlineData("cover.csv", 2, "cover", "buoy yellow", "--csv")]
    [InlineData("shelf-list.csv", 0, "shelf", "list", "--csv")]
    [InlineData("shelf-show.csv", 0, "shelf", "show", "tarred", "--csv")]
    public async Task AnAnswerReadsAsReviewed(string expected, int exitCode, params string[] arguments)
    {
        await using FakeService fake = await FakeService.StartAsync(_home, PrescribedAnswers.All);

        Outcome outcome = await _home.RunAsync([.. arguments, "--server", fake.Address]);

        outcome.Ended(exitCode);
        ExpectedPage.Matches(expected, outcome.Output);
    }

    [Fact]
    public async Task AMatchThatWasStoppedSaysWhatMayBeLeftAndWhatToAdd()
    {
        await using FakeService fake = await FakeService.StartAsync(_home, new FakeService.Prescribed { Match = PrescribedAnswers.MatchStopped });

        Outcome outcome = await _home.RunAsync("match", "#5a6b3c", "--base", "4 tarred rope", "--server", fake.Address);

        outcome.Ended(2);
        ExpectedPage.Matches("match-stopped.txt", outcome.Output);
    }
}
