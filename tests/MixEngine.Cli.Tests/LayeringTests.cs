using System.Text.Json;
using MixEngine.Cli.Tests.Running;

namespace MixEngine.Cli.Tests;

/// <summary>Ramps in use, glazes backwards, undercoats, varnish, lamps and eyes from the command line, answered by the real service.</summary>
public sealed class LayeringTests(StockedHome home) : IClassFixture<StockedHome>
{
    [Fact]
    public async Task A_ramp_in_use_is_audited()
    {
        // The usual equal parts: a weak green in a strong brown bands.
        string[] ramp = ["tarred rope", "2:1 tarred rope : kelp", "1:1 tarred rope : kelp", "1:2 tarred rope : kelp", "kelp", "1 kelp + 1 sea lettuce"];
        Outcome outcome = await home.RunAsync(["ramp", .. ramp, "--audit"]);
        string page = outcome.Ended(0).Output;
        Assert.Contains("From step 4 to 5 bands", page, StringComparison.Ordinal);
        Assert.Contains("   6  1 kelp + 1 sea lettuce", page, StringComparison.Ordinal);

        Outcome table = await home.RunAsync(["ramp", .. ramp, "--audit", "--csv"]);
        IReadOnlyList<string[]> rows = table.Ended(0).Csv;
        Assert.Equal(7, rows.Count);
        Assert.Equal("band", rows[5][Array.IndexOf(rows[0], "fault")]);

        // What the command itself makes is even.
        Outcome made = await home.RunAsync("ramp", "kelp", "sea lettuce", "--steps", "5", "--drops", "24", "--json");
        string[] recipes = [.. JsonDocument.Parse(made.Ended(0).Output).RootElement.GetProperty("steps").EnumerateArray().Select(step => step.GetProperty("recipe").GetProperty("text").GetString()!)];
        Outcome even = await home.RunAsync(["ramp", .. recipes, "--audit"]);
        Assert.Contains("Even: nothing to mend.", even.Ended(0).Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_ramp_is_shaped_extended_filled_and_built_around_a_colour()
    {
        JsonElement shaped = JsonDocument.Parse((await home.RunAsync("ramp", "kelp", "sea lettuce", "--largest", "8", "--drops", "24", "--even-in", "lightness", "--json")).Ended(0).Output).RootElement;
        Assert.All(shaped.GetProperty("steps").EnumerateArray().Skip(1), step => Assert.True(step.GetProperty("stepSize").GetDouble() <= 8));

        Outcome extended = await home.RunAsync("ramp", "kelp", "1 kelp + 1 sea lettuce", "sea lettuce", "--extend", "light", "--with", "gull");
        Assert.Contains("with gull white", extended.Ended(0).Output, StringComparison.Ordinal);
        (await home.RunAsync("ramp", "kelp", "sea lettuce", "--extend", "dark", "--with", "gull")).Ended(2);

        Outcome between = await home.RunAsync("ramp", "kelp", "sea lettuce", "--between", "--csv");
        Assert.Equal(2, between.Ended(0).Csv.Count);
        (await home.RunAsync("ramp", "kelp", "2 kelp", "--between")).Ended(2);

        Outcome around = await home.RunAsync("ramp", "--around", "#8a6a4d", "--hue", "warm light");
        Assert.Contains("Mid-tone: step ", around.Ended(0).Output, StringComparison.Ordinal);
        Assert.Contains("--around leads through one colour", (await home.RunAsync("ramp", "kelp", "--around", "#8a6a4d")).Ended(1).Error, StringComparison.Ordinal);
        Assert.Contains("are different questions", (await home.RunAsync("ramp", "kelp", "peat", "--audit", "--between")).Ended(1).Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_glaze_is_asked_backwards()
    {
        Outcome made = await home.RunAsync("glaze", "tide pool", "--medium", "5", "--coats", "3", "--over", "#c9c9c9", "--json");
        JsonElement lab = JsonDocument.Parse(made.Ended(0).Output).RootElement.GetProperty("coats")[2].GetProperty("color").GetProperty("lab");
        string target = FormattableString.Invariant($"lab:{lab.GetProperty("l").GetDouble():0.000},{lab.GetProperty("a").GetDouble():0.000},{lab.GetProperty("b").GetDouble():0.000}");
        Outcome found = await home.RunAsync("glaze", "tide pool", "--over", "#c9c9c9", "--to", target);
        Assert.Contains("coats of 1 tide pool", found.Ended(0).Output, StringComparison.Ordinal);

        // Without a recipe the whole shelf is tried, and over several layers hue and chroma count.
        Outcome shelf = await home.RunAsync("glaze", "--over", "1 gull white", "--over", "1 peat", "--to", target, "--csv");
        IReadOnlyList<string[]> rows = CsvText.Read(shelf.Output);
        Assert.Equal(["1", "2"], rows.Skip(1).Take(2).Select(row => row[Array.IndexOf(rows[0], "layer")]));

        Assert.Contains("Why: ", (await home.RunAsync("glaze", "tide pool", "--over", "soot", "--to", "#f0f0f0")).Ended(2).Output, StringComparison.Ordinal);
        Assert.Contains("over one layer", (await home.RunAsync("glaze", "tide pool", "--over", "black", "--over", "white")).Ended(1).Error, StringComparison.Ordinal);
        Assert.Contains("Required argument 'recipe' missing", (await home.RunAsync("glaze", "--over", "black")).Ended(1).Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_undercoat_is_found() =>
        Assert.Contains("beneath, then", (await home.RunAsync("cover", "buoy yellow", "--over", "black", "--undercoat")).Ended(0).Output, StringComparison.Ordinal);

    [Fact]
    public async Task Recipes_are_seen_varnished_under_lamps_and_by_other_eyes()
    {
        Outcome finish = await home.RunAsync("finish", "tide pool", "--csv");
        Assert.Equal(["matt", "satin", "gloss"], finish.Ended(0).Csv.Skip(1).Select(row => row[0]));

        string lamp = home.Home.Write("desk lamp.csv", "# measured at the desk\nnm;power\n380;0.1\n450;1\n550;0.8\n650;0.9\n730;0.2\n");
        Outcome light = await home.RunAsync("light", "kelp", "sea lettuce", "--lamp", "A", "--lamp", lamp, "--target", "#4a4e26");
        string page = light.Ended(0).Output;
        Assert.Contains("desk lamp: recipe 2 is", page, StringComparison.Ordinal);
        Assert.Contains("Worst lamp: ", page, StringComparison.Ordinal);
        Assert.Contains("There is no file nowhere.csv", (await home.RunAsync("light", "kelp", "--lamp", "nowhere.csv")).Ended(1).Error, StringComparison.Ordinal);
        string bad = home.Home.Write("bad.csv", "380,1\n450,bright\n");
        Assert.Contains("line 2: \"450,bright\"", (await home.RunAsync("light", "kelp", "--lamp", bad)).Ended(1).Error, StringComparison.Ordinal);
        Assert.Contains("'Z9' is no light", (await home.RunAsync("light", "kelp", "--lamp", "Z9")).Ended(1).Error, StringComparison.Ordinal);

        Outcome eyes = await home.RunAsync("eyes", "kelp", "boiled crab", "--eye", "deutan:0.6");
        Assert.StartsWith("deutan 0.6", eyes.Ended(0).Output, StringComparison.Ordinal);
        Assert.Contains("--eye: \"deutan:much\"", (await home.RunAsync("eyes", "kelp", "--eye", "deutan:much")).Ended(1).Error, StringComparison.Ordinal);
    }
}
