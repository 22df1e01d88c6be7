using MixEngine.V1;

namespace MixEngine.Service.Tests.Endpoints;

/// <summary>The five questions, asked by the real client over the socket.</summary>
public sealed class MixingTests(TestService service) : IClassFixture<TestService>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Predict_answers_the_recipe_its_colour_and_how_sure_that_is()
    {
        var answer = await service.Mixing.PredictAsync(new PredictRequest { Recipe = Text("2 TARRED ROPE + 1 ke") }, cancellationToken: Stop);
        Assert.Equal([("tarred-rope", "tarred rope", 2.0), ("kelp", "kelp", 1.0)], answer.Recipe.Parts.Select(part => (part.PaintId, part.Paint, part.Parts)));
        Assert.Equal(1, answer.Recipe.Parts.Sum(part => part.Share), 12);
        Assert.Equal("2 tarred rope + 1 kelp (66.7 % + 33.3 %)", answer.Recipe.Text);
        Assert.Matches("^#[0-9a-f]{6}$", answer.Color.Hex);
        Assert.True(answer.Color.InGamut);
        Assert.NotEqual("", answer.Color.Words);
        Assert.Equal(("D65", 2), (answer.Color.Illuminant, answer.Color.ObserverDegrees));
        Assert.True(answer.ExpectedError.BoundDeltaE00 > answer.ExpectedError.LikelyDeltaE00);
        Assert.Null(answer.Reflectance);
    }

    [Fact]
    public async Task Parts_and_text_and_the_answers_own_text_ask_the_same()
    {
        var asParts = new RecipeInput { Parts = { new PartInput { Paint = "kelp", Parts = 1 }, new PartInput { Paint = "tarred-rope", Parts = 2 } } };
        var fromParts = await service.Mixing.PredictAsync(new PredictRequest { Recipe = asParts }, cancellationToken: Stop);
        var fromRatio = await service.Mixing.PredictAsync(new PredictRequest { Recipe = Text("1:2 kelp : tarred rope") }, cancellationToken: Stop);
        var fromAnswer = await service.Mixing.PredictAsync(new PredictRequest { Recipe = Text(fromParts.Recipe.Text) }, cancellationToken: Stop);
        Assert.Equal(fromParts, fromRatio);
        Assert.Equal(fromParts, fromAnswer);
    }

    [Fact]
    public async Task A_view_changes_what_is_seen_and_gives_the_reflectance_where_asked()
    {
        var view = new V1.View { Illuminant = "a", ObserverDegrees = 10, Finish = "Matt", WithReflectance = true };
        var daylight = await service.Mixing.PredictAsync(new PredictRequest { Recipe = Text("tide pool") }, cancellationToken: Stop);
        var lamp = await service.Mixing.PredictAsync(new PredictRequest { View = view, Recipe = Text("tide pool") }, cancellationToken: Stop);
        Assert.Equal(("A", 10), (lamp.Color.Illuminant, lamp.Color.ObserverDegrees));
        Assert.NotEqual(daylight.Color.Lab, lamp.Color.Lab);
        Assert.Equal(36, lamp.Reflectance.Reflectance.Count);
        Assert.Equal((380, 730), (lamp.Reflectance.WavelengthNm[0], lamp.Reflectance.WavelengthNm[^1]));
        Assert.All(lamp.Reflectance.Reflectance, factor => Assert.InRange(factor, 0, 1));
    }

    [Fact]
    public async Task Ramp_goes_from_dark_to_light_in_whole_drops()
    {
        var answer = await service.Mixing.RampAsync(
            new RampRequest { Through = { Text("tarred rope"), Text("kelp"), Text("sea lettuce") }, Steps = 5, Drops = 8 }, cancellationToken: Stop);
        Assert.Equal(5, answer.Steps.Count);
        Assert.Equal("tarred rope", Assert.Single(answer.Steps[0].Recipe.Parts).Paint);
        Assert.Equal("sea lettuce", Assert.Single(answer.Steps[^1].Recipe.Parts).Paint);
        Assert.All(answer.Steps.SelectMany(step => step.Recipe.Parts), part => Assert.Equal(Math.Round(part.Parts), part.Parts));
        Assert.All(answer.Steps, step => Assert.True(step.Recipe.Parts.Sum(part => part.Parts) <= 8));
        Assert.All(answer.Steps.Zip(answer.Steps.Skip(1)), pair => Assert.True(pair.First.Color.Lab.L <= pair.Second.Color.Lab.L));
        Assert.False(answer.Steps[0].HasStepDeltaE00);
        Assert.Equal(answer.LargestDeltaE00, answer.Steps.Max(step => step.StepDeltaE00));
        Assert.Equal(answer.SmallestDeltaE00, answer.Steps.Skip(1).Min(step => step.StepDeltaE00));
        Assert.Equal(5, answer.UndividedSteps.Count);
    }

    [Fact]
    public async Task Match_finds_a_mixture_that_was_predicted()
    {
        var predicted = await service.Mixing.PredictAsync(new PredictRequest { Recipe = Text("2 kelp + 1 chalk cliff") }, cancellationToken: Stop);
        var answer = await service.Mixing.MatchAsync(
            new MatchRequest { Target = new ColorInput { Lab = predicted.Color.Lab }, Paints = 2, Drops = 4 }, cancellationToken: Stop);
        Assert.True(answer.Reached);
        Assert.True(answer.Proven);
        Assert.Equal("", answer.Reason);
        Assert.Equal(predicted.Recipe, answer.Matches[0].Recipe);
        Assert.Equal(predicted.Color, answer.Matches[0].Color);
        Assert.InRange(answer.Matches[0].DeltaE00, 0, 0.001);
        Assert.InRange(answer.Undivided.DeltaE00, 0, 0.01);
    }

    [Fact]
    public async Task Match_says_in_which_direction_an_unreachable_colour_lies()
    {
        var answer = await service.Mixing.MatchAsync(new MatchRequest { Target = new ColorInput { Text = "#ff00ff" } }, cancellationToken: Stop);
        Assert.False(answer.Reached);
        Assert.StartsWith("The nearest is", answer.Reason);
        Assert.NotEmpty(answer.Matches);
    }

    [Fact]
    public async Task Match_takes_a_spectrum()
    {
        var predicted = await service.Mixing.PredictAsync(
            new PredictRequest { Recipe = Text("rust, old"), View = new V1.View { WithReflectance = true } }, cancellationToken: Stop);
        var answer = await service.Mixing.MatchAsync(
            new MatchRequest { Target = new ColorInput { Spectrum = predicted.Reflectance }, Paints = 1 }, cancellationToken: Stop);
        Assert.Equal("rust, old", Assert.Single(answer.Matches[0].Recipe.Parts).Paint);
        Assert.Equal(predicted.Color.Lab.L, answer.Target.Lab.L, 6);
    }

    [Fact]
    public async Task Glaze_tells_each_coat()
    {
        var answer = await service.Mixing.GlazeAsync(
            new GlazeRequest { Recipe = Text("tide pool"), MediumParts = 6, Coats = 3, Over = new Surface { Color = new ColorInput { Text = "#c9c9c9" } } }, cancellationToken: Stop);
        Assert.Equal([1, 2, 3], answer.Coats.Select(coat => coat.Coat));
        Assert.Equal(["tide pool", "medium"], answer.Recipe.Parts.Select(part => part.Paint));
        Assert.Equal("#c9c9c9", answer.Over.Hex);
        Assert.Equal(answer.Coats[0].StepDeltaE00, answer.Coats[0].TotalDeltaE00);
        Assert.All(answer.Coats.Zip(answer.Coats.Skip(1)), pair => Assert.True(pair.First.TotalDeltaE00 < pair.Second.TotalDeltaE00));
    }

    [Fact]
    public async Task Glaze_over_earlier_glazes_goes_on_where_they_ended()
    {
        GlazeRequest Request(Surface over, int coats) => new() { Recipe = Text("kelp"), MediumParts = 4, Coats = coats, Over = over };
        var primer = new Surface { Primer = "white" };
        var layered = new Surface { Primer = "white", Coats = { new V1.Coats { Recipe = Text("kelp"), MediumParts = 4, Coats_ = 2 } } };
        var atOnce = await service.Mixing.GlazeAsync(Request(primer, 3), cancellationToken: Stop);
        var onTop = await service.Mixing.GlazeAsync(Request(layered, 1), cancellationToken: Stop);
        Assert.Equal(atOnce.Coats[1].Color, onTop.Over);
        Assert.Equal(atOnce.Coats[2].Color, onTop.Coats[0].Color);
    }

    [Fact]
    public async Task A_recipe_that_has_medium_can_be_let_down_further()
    {
        GlazeRequest Request(string recipe, double medium) => new() { Recipe = Text(recipe), MediumParts = medium, Over = new Surface { Primer = "white" } };
        var further = await service.Mixing.GlazeAsync(Request("1 kelp + 1 medium", 1), cancellationToken: Stop);
        var atOnce = await service.Mixing.GlazeAsync(Request("kelp", 3), cancellationToken: Stop);
        Assert.Equal([1.0, 3.0], further.Recipe.Parts.Select(part => part.Parts));
        Assert.Equal(atOnce.Coats[0].Color, further.Coats[0].Color);
    }

    [Fact]
    public async Task Cover_counts_coats_over_every_primer_or_over_one()
    {
        var all = await service.Mixing.CoverAsync(new CoverRequest { Recipe = Text("kelp") }, cancellationToken: Stop);
        Assert.Equal(["black", "grey", "white"], all.Primers.Select(primer => primer.Primer));
        var black = await service.Mixing.CoverAsync(new CoverRequest { Recipe = Text("kelp"), Over = "Black" }, cancellationToken: Stop);
        var one = Assert.Single(black.Primers);
        Assert.Equal(all.Primers[0], one);
        Assert.Equal(one.Coats, one.Steps.Count);
        Assert.InRange(one.Coats, one.CoatsAtBest, one.HasCoatsAtWorst ? one.CoatsAtWorst : int.MaxValue);
        Assert.All(one.Steps, step => Assert.InRange(step.ContrastRatio, 0, 1.05));
    }

    [Fact]
    public async Task Cover_says_when_nothing_is_hidden_within_a_hundred_coats()
    {
        var thin = await service.Mixing.CoverAsync(
            new CoverRequest { Recipe = Text("1 tide pool + 99 medium"), Over = "black", FilmThicknessUm = 1 }, cancellationToken: Stop);
        Assert.False(thin.Primers[0].HasCoats);
        Assert.Equal(Core.Coats.Most, thin.Primers[0].Steps.Count);
        Assert.Contains(thin.Remarks, remark => remark.StartsWith("Not hidden within 100 coats", StringComparison.Ordinal));
    }

    [Fact]
    public void Medium_and_water_are_on_every_shelf()
    {
        Assert.Equal(
            ["kelp", "medium", "water"],
            service.Mixing.Predict(new PredictRequest { Recipe = Text("kelp + medium + water") }, cancellationToken: Stop).Recipe.Parts.Select(part => part.Paint));
    }

    private static RecipeInput Text(string text) => new() { Text = text };
}
