using MixEngine.Cli.Tests.Running;

namespace MixEngine.Cli.Tests;

/// <summary>Schemes from the command line, against the real service.</summary>
public sealed class SchemeCommandTests(StockedHome stocked) : IClassFixture<StockedHome>
{
    private const string Scheme = """
        name = "two fishers"
        tolerance = 6

        [[figure]]
        name = "fishers"
        count = 2

        [[figure.area]]
        name = "coat"
        paints = ["tarred rope", "kelp"]
        steps = 3
        """;

    [Fact]
    public async Task ARunWritesCardsIsKeptReplayedAndCompared()
    {
        string folder = Directory.CreateTempSubdirectory("mixengine-cards").FullName;
        try
        {
            string file = Path.Combine(folder, "fishers.toml");
            await File.WriteAllTextAsync(file, Scheme, TestContext.Current.CancellationToken);
            Outcome run = (await stocked.Home.RunAsync("scheme", "run", file, "--out", Path.Combine(folder, "cards"))).Ended(0);

            Assert.Contains("2 figures, 1 areas", run.Output, StringComparison.Ordinal);
            Assert.DoesNotContain("\e", run.Output + run.Error, StringComparison.Ordinal);
            Assert.DoesNotContain("\r", run.Error, StringComparison.Ordinal);
            Assert.Contains("painting steps", run.Error, StringComparison.Ordinal);
            Assert.True(File.Exists(Path.Combine(folder, "cards", "cards.pdf")));
            Assert.Empty(Directory.EnumerateFiles(folder, "*.part", SearchOption.AllDirectories));

            string number = (await stocked.Home.RunAsync("scheme", "list", "--csv")).Ended(0).Csv[1][0];
            Assert.Contains("Every bit of the answer is the same", (await stocked.Home.RunAsync("scheme", "replay", number)).Ended(0).Output, StringComparison.Ordinal);
            Assert.Contains("Nothing moved", (await stocked.Home.RunAsync("scheme", "compare", number)).Ended(0).Output, StringComparison.Ordinal);
            Assert.Equal(4, (await stocked.Home.RunAsync("scheme", "show", number, "--csv")).Ended(0).Csv.Count);

            (await stocked.Home.RunAsync("mix", "log", "12 tarred rope", "6 kelp @L2207", "--run", number, "--swatch", "#3a3020")).Ended(0);
            Outcome mixes = (await stocked.Home.RunAsync("mix", "list", "--csv")).Ended(0);
            Assert.Equal(["kelp", "6", "L2207", "#3a3020"], mixes.Csv[2][4..8]);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Theory]
    [InlineData("tolerance = 6", "tolerance = 600", "line 2, tolerance")]
    [InlineData("\"kelp\"", "\"kepl\"", "line 10, figure \"fishers\" / area \"coat\" / paints")]
    [InlineData("steps = 3", "steps = #3", "line 11")]
    public async Task AFaultNamesItsLineAndKey(string there, string instead, string said)
    {
        string file = Path.GetTempFileName();
        try
        {
            await File.WriteAllTextAsync(file, Scheme.Replace(there, instead, StringComparison.Ordinal), TestContext.Current.CancellationToken);
            Outcome outcome = (await stocked.Home.RunAsync("scheme", "run", file)).Ended(1);
            Assert.Contains(said, outcome.Error, StringComparison.Ordinal);
            Assert.DoesNotContain("   at ", outcome.Error, StringComparison.Ordinal);
        }
        finally
        {
            File.Delete(file);
        }
    }

    [Fact]
    public async Task WhatIsNoFileIsSaid() =>
        Assert.Contains("There is no file", (await stocked.Home.RunAsync("scheme", "run", "/no/such/file.toml")).Ended(1).Error, StringComparison.Ordinal);

    [Fact]
    public async Task TheSchemaIsPrinted() =>
        Assert.Contains("\"$schema\"", (await stocked.Home.RunAsync("scheme", "schema")).Ended(0).Output, StringComparison.Ordinal);
}
