using System.Globalization;
using System.Text.Json;
using MixEngine.Cli.Tests.Running;

namespace MixEngine.Cli.Tests;

/// <summary>The whole main job, as it is typed, against the real service.</summary>
public sealed class MainJobTests(StockedHome home) : IClassFixture<StockedHome>
{
    [Fact]
    public async Task AMixIsPredictedAndTheOrderAndScaleOfItsPartsDoNotMatter()
    {
        JsonElement one = (await home.RunAsync("predict", "2 tarred rope + 1 kelp", "--json")).Ended(0).Json;
        JsonElement other = (await home.RunAsync("predict", "2:4 kelp : tarred rope", "--json")).Ended(0).Json;

        Assert.Equal(one.GetProperty("color").ToString(), other.GetProperty("color").ToString());
        Assert.Equal(["tarred rope", "kelp"], one.GetProperty("recipe").GetProperty("parts").EnumerateArray().Select(part => part.GetProperty("paint").GetString()));
        Assert.Matches("^#[0-9a-f]{6}$", one.GetProperty("color").GetProperty("hex").GetString());
        Assert.True(one.GetProperty("expectedError").GetProperty("boundDeltaE00").GetDouble() > 0);
    }

    /// <summary>Common practice, no source: black let into a dark green is lighter the less black there is.</summary>
    [Fact]
    public async Task BlackIntoADarkGreenLightensAtEveryStep()
    {
        var lightness = new List<double>();
        foreach (string recipe in new[] { "2 soot black + 1 kelp", "1 soot black + 1 kelp", "1 soot black + 2 kelp", "kelp" })
        {
            JsonElement answer = (await home.RunAsync("predict", recipe, "--json")).Ended(0).Json;
            lightness.Add(answer.GetProperty("color").GetProperty("lab").GetProperty("l").GetDouble());
        }

        Assert.Equal(lightness.Order(), lightness);
        Assert.Equal(4, lightness.Distinct().Count());
    }

    [Fact]
    public async Task ARampGoesFromDarkToLightInWholeDropsAndEndsAtItsPaints()
    {
        IReadOnlyList<string[]> table = (await home.RunAsync("ramp", "tarred rope", "kelp", "sea lettuce", "--steps", "6", "--drops", "6", "--csv")).Ended(0).Csv;

        int l = Array.IndexOf(table[0], "l");
        double[] lightness = [.. table.Skip(1).Select(row => double.Parse(row[l], CultureInfo.InvariantCulture))];
        Assert.Equal(6, lightness.Length);
        Assert.Equal(lightness.Order(), lightness);
        Assert.EndsWith("tarred rope", table[1][1], StringComparison.Ordinal);
        Assert.EndsWith("sea lettuce", table[6][1], StringComparison.Ordinal);
        Assert.All(table.Skip(1), row => Assert.InRange(row[1].Split(" + ").Sum(part => int.Parse(part.Split(' ')[0], CultureInfo.InvariantCulture)), 1, 6));
    }

    [Fact]
    public async Task AMatchFindsAMixtureThatWasPredicted()
    {
        JsonElement mix = (await home.RunAsync("predict", "2 old net + 1 gull white", "--json")).Ended(0).Json.GetProperty("color").GetProperty("lab");
        string target = string.Create(CultureInfo.InvariantCulture, $"lab:{mix.GetProperty("l").GetDouble()},{mix.GetProperty("a").GetDouble()},{mix.GetProperty("b").GetDouble()}");

        JsonElement answer = (await home.RunAsync("match", target, "--paints", "2", "--drops", "3", "--json")).Ended(0).Json;

        Assert.True(answer.GetProperty("reached").GetBoolean());
        Assert.InRange(answer.GetProperty("matches")[0].GetProperty("deltaE00").GetDouble(), 0, 0.5);
    }

    [Fact]
    public async Task AColourBeyondEveryPaintCannotBeReachedAndTheNearestIsPrinted()
    {
        Outcome outcome = await home.RunAsync("match", "#ff00ff", "--paints", "1");

        outcome.Ended(2);
        Assert.Contains("Cannot be reached; the best of the nearest", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("Why: ", outcome.Output, StringComparison.Ordinal);
        Assert.Empty(outcome.Error);
    }

    /// <summary>Common practice, no source: turquoise let well down over grey turns it bluer with every coat and leaves it light.</summary>
    [Fact]
    public async Task AGlazeTurnsWhatLiesBeneathBlueCoatByCoat()
    {
        IReadOnlyList<string[]> table = (await home.RunAsync("glaze", "tide pool", "--medium", "6", "--coats", "3", "--over", "#c9c9c9", "--csv")).Ended(0).Csv;

        int b = Array.IndexOf(table[0], "b");
        double[] blueness = [.. table.Skip(1).Select(row => -double.Parse(row[b], CultureInfo.InvariantCulture))];
        Assert.Equal(4, blueness.Length);
        Assert.Equal(blueness.Order(), blueness);
    }

    [Fact]
    public async Task AGlazeOverAnotherAnswerBeginsAtIt()
    {
        JsonElement beneath = (await home.RunAsync("predict", "wet slate", "--json")).Ended(0).Json.GetProperty("color");
        JsonElement glazed = (await home.RunAsync("glaze", "tide pool", "--medium", "6", "--over", "wet slate", "--json")).Ended(0).Json;

        Assert.Equal(beneath.GetProperty("hex").GetString(), glazed.GetProperty("over").GetProperty("hex").GetString());
    }

    [Fact]
    public async Task CoatsAreCountedOverEachPrimerAndAThinYellowNeedsMoreOverBlackThanOverWhite()
    {
        JsonElement primers = (await home.RunAsync("cover", "buoy yellow", "--json")).Json.GetProperty("primers");
        Dictionary<string, int> coats = primers.EnumerateArray().ToDictionary(primer => primer.GetProperty("primer").GetString()!, primer => primer.TryGetProperty("coats", out JsonElement n) ? n.GetInt32() : 101);

        Assert.Equal(["black", "grey", "white"], coats.Keys.Order());
        Assert.True(coats["black"] >= coats["white"], $"{coats["black"]} over black, {coats["white"]} over white");
    }

    [Fact]
    public async Task AShelfIsExportedAndReadBackIdentically()
    {
        string path = Path.Combine(home.Home.Folder, "export.csv");
        (await home.RunAsync("shelf", "export", path)).Ended(0);

        Outcome again = await home.RunAsync("shelf", "import", path, "--dry-run", "--json");
        Outcome output = await home.RunAsync("shelf", "export");

        JsonElement answer = again.Ended(0).Json;
        Assert.Equal(24, answer.GetProperty("unchanged").GetArrayLength());
        Assert.Equal(0, answer.GetProperty("added").GetArrayLength() + answer.GetProperty("changed").GetArrayLength());
        Assert.True(answer.GetProperty("dryRun").GetBoolean());
        Assert.Equal(await File.ReadAllTextAsync(path, TestContext.Current.CancellationToken), output.Ended(0).Output);
    }

    [Fact]
    public async Task APaintIsShownByAnyUnambiguousBeginningInAnyCase()
    {
        JsonElement answer = (await home.RunAsync("shelf", "show", "TARRED", "--json")).Ended(0).Json;

        Assert.Equal("tarred rope", answer.GetProperty("paint").GetProperty("name").GetString());
        Assert.Equal(36, answer.GetProperty("wavelengthNm").GetArrayLength());
    }

    [Fact]
    public async Task APaintIsTakenOffAShelf()
    {
        (await home.Home.RunWithInputAsync("name,hex,opacity\nebb,#224466,opaque\nflood,#446622,opaque\n", "shelf", "import", "-", "--shelf", "tide")).Ended(0);

        (await home.RunAsync("shelf", "remove", "ebb", "--shelf", "tide")).Ended(0);

        Assert.Equal(["flood"], (await home.RunAsync("shelf", "list", "--shelf", "tide", "--csv")).Ended(0).Csv.Skip(1).Select(row => row[1]));
        Assert.Contains("tide", (await home.RunAsync("shelf", "list", "--shelves", "--csv")).Ended(0).Csv.Select(row => row[0]));
    }

    [Fact]
    public async Task ReflectanceComesOnRequest()
    {
        string[] header = (await home.RunAsync("predict", "kelp", "--reflectance", "--csv")).Ended(0).Csv[0];

        Assert.Equal(36, header.Count(name => name.StartsWith('r') && char.IsAsciiDigit(name[^1])));
        Assert.Contains("r380", header);
        Assert.Contains("r730", header);
    }

    [Theory]
    [InlineData("kelp", "predict", "klep")]
    [InlineData("wet s", "predict", "wet")]
    [InlineData("D65", "predict", "kelp", "--light", "D66")]
    [InlineData("10", "predict", "kelp", "--observer", "3")]
    [InlineData("satin", "predict", "kelp", "--finish", "shiny")]
    [InlineData("64", "ramp", "kelp", "sea lettuce", "--steps", "65")]
    [InlineData("80", "match", "#5a6b3c", "--drops", "81")]
    [InlineData("#12", "match", "#12")]
    [InlineData("#ggg", "match", "#ggg")]
    [InlineData("#12345", "glaze", "kelp", "--over", "#12345")]
    [InlineData("black", "cover", "kelp", "--over", "purple")]
    [InlineData("home", "predict", "kelp", "--shelf", "hoem")]
    [InlineData("lab:", "match", "lab:40,-12")]
    public async Task BadInputIsRefusedInWords(string said, params string[] arguments)
    {
        Outcome outcome = await home.RunAsync(arguments);

        outcome.Ended(1);
        Assert.Contains(said, outcome.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", outcome.Error, StringComparison.Ordinal);
        Assert.Empty(outcome.Output);
    }

    [Theory]
    [InlineData("#ccc", "#cccccc")]
    [InlineData("ccc", "#cccccc")]
    [InlineData("CCCCCC", "#cccccc")]
    public async Task ShortAndBareHexAreRead(string given, string meant)
    {
        Outcome outcome = await home.RunAsync("match", given, "--paints", "1", "--json");

        Assert.Equal(meant, outcome.Json.GetProperty("target").GetProperty("hex").GetString());
    }
}
