using System.Text.Json;
using MixEngine.Cli.Tests.Running;
using MixEngine.V1;

namespace MixEngine.Cli.Tests;

/// <summary>Swatches as they are typed: what reaches the service, and what the real service makes of it.</summary>
public sealed class SwatchTests(StockedHome home) : IClassFixture<StockedHome>
{
    [Fact]
    public async Task AllThatIsSaidOfASwatchArrivesAsItWasMeant()
    {
        AddSwatchRequest? asked = null;
        using var own = new Home();
        await using FakeService fake = await FakeService.StartAsync(own, PrescribedAnswers.All with { Added = request => asked = request });

        Outcome outcome = await own.RunAsync(
            "swatch", "add", "1 kelp + 4 gull white", "lab:61,-12,14", "--light", "D50", "--observer", "10", "--source", "photo", "--specular", "excluded", "--finish", "matt",
            "--date", "2026-11-25", "--over", "black", "--film", "first", "--thickness", "37.5", "--coats", "2", "--weighed", "--note", "in shade", "--shelf", "coast", "--server", fake.Address);

        outcome.Ended(0);
        Assert.Equal(
            new AddSwatchRequest
            {
                Shelf = "coast",
                Swatch = new Swatch
                {
                    Recipe = new RecipeInput { Text = "1 kelp + 4 gull white" },
                    Color = new ColorInput { Text = "lab:61,-12,14", Illuminant = "D50", ObserverDegrees = 10 },
                    Backing = new ColorInput { Text = "black", Illuminant = "D50", ObserverDegrees = 10 },
                    Film = "first", ThicknessUm = 37.5, Coats = 2, Dosing = "weighed", Source = "photo", Specular = "excluded", Finish = "matt", Date = "2026-11-25", Note = "in shade",
                },
            },
            asked);
    }

    [Fact]
    public async Task ASwatchIsAddedCorrectedShownAndForgotten()
    {
        JsonElement added = (await home.RunAsync("swatch", "add", "1 old net + 4 gull white", "#b8ad97", "--source", "photo", "--json")).Ended(0).Json;
        string id = added.GetProperty("fit").GetProperty("swatch").GetProperty("id").GetString()!;
        Assert.Equal("ladder", added.GetProperty("paints").EnumerateArray().Single(paint => paint.GetProperty("paint").GetString() == "old net").GetProperty("gradeAfter").GetString());

        (await home.RunAsync("swatch", "correct", id, "1 old net + 3 gull white", "#b8ad97")).Ended(0);
        JsonElement shown = (await home.RunAsync("paint", "show", "old net", "--json")).Ended(0).Json;
        Assert.Equal("1 old net + 3 gull white", Assert.Single(shown.GetProperty("evidence").EnumerateArray()).GetProperty("swatch").GetProperty("recipe").GetProperty("text").GetString());

        (await home.RunAsync("swatch", "remove", id)).Ended(0);
        Assert.Empty((await home.RunAsync("swatch", "list", "--of", "old net", "--csv")).Ended(0).Csv.Skip(1));
    }

    [Fact]
    public async Task SwatchesAreExportedAndReadBackIdentically()
    {
        (await home.RunAsync("swatch", "add", "1 kelp + 4 gull white", "#8a9b7c", "--note", "first")).Ended(0);
        (await home.RunAsync("swatch", "add", "kelp", "lab:30,-8,22", "--over", "#ffffff", "--film", "thin", "--thickness", "20")).Ended(0);
        foreach (string name in new[] { "swatches.csv", "swatches.cxf", "swatches.cgats", "swatches.xlsx" })
        {
            string path = Path.Combine(home.Home.Folder, name);
            (await home.RunAsync("swatch", "export", path)).Ended(0);
            JsonElement again = (await home.RunAsync("swatch", "import", path, "--dry-run", "--json")).Ended(0).Json;
            Assert.Equal((0, true), (again.GetProperty("added").GetInt32(), again.GetProperty("alreadyThere").GetInt32() >= 2));
        }
    }

    [Theory]
    [InlineData("gull white", "swatch", "add", "1 kelp + 4 gul whit", "#8a9b7c")]
    [InlineData("#12", "swatch", "add", "kelp", "#12")]
    [InlineData("--source", "swatch", "add", "kelp", "#8a9b7c", "--source", "dream")]
    [InlineData("--over", "swatch", "add", "kelp", "#8a9b7c", "--over", "puce")]
    [InlineData("--date", "swatch", "add", "kelp", "#8a9b7c", "--date", "yesterday")]
    [InlineData("--thickness", "swatch", "add", "kelp", "#8a9b7c", "--thickness", "thick")]
    [InlineData("quotes", "swatch", "add", "kelp")]
    [InlineData("s99", "swatch", "remove", "s99")]
    [InlineData("my-swatches.csv", "swatch", "import", "no-such-file.csv")]
    [InlineData("csv-long", "swatch", "export", "--format", "pdf")]
    [InlineData("no pigment", "paint", "advise", "water")]
    public async Task BadInputIsRefusedInWords(string said, params string[] arguments)
    {
        Outcome outcome = await home.RunAsync(arguments);

        outcome.Ended(1);
        Assert.Contains(said, outcome.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", outcome.Error, StringComparison.Ordinal);
        Assert.Empty(outcome.Output);
    }
}
