using Google.Protobuf;
using Google.Rpc;
using Grpc.Core;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Endpoints;

/// <summary>Everything that a match can be asked for, as laws that hold whatever the numbers are.</summary>
public sealed class MatchOptionsTests(TestService service) : IClassFixture<TestService>
{
    private static readonly string[] Targets = ["#5a6b3c", "#8a6a4d", "#c9b28a", "#35506a", "#ff00ff"];

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public static TheoryData<string> AllTargets => [.. Targets];

    [Theory]
    [MemberData(nameof(AllTargets))]
    public async Task A_paint_that_must_be_in_is_in_every_answer(string target)
    {
        var answer = await Match(new MatchRequest { Target = Colour(target), Must = { "RUST", "kelp" } });
        Assert.All(answer.Matches, match => Assert.Superset(new HashSet<string> { "rust-old", "kelp" }, Ids(match)));
    }

    [Theory]
    [MemberData(nameof(AllTargets))]
    public async Task A_paint_that_must_not_be_in_never_is_and_the_answer_is_no_better(string target)
    {
        var free = await Match(new MatchRequest { Target = Colour(target), Tolerance = 0 });
        var without = await Match(new MatchRequest { Target = Colour(target), Tolerance = 0, MustNot = { free.Matches[0].Recipe.Parts[0].Paint } });
        Assert.All(without.Matches, match => Assert.DoesNotContain(free.Matches[0].Recipe.Parts[0].PaintId, Ids(match)));
        Assert.True(without.Matches[0].DeltaE00 >= free.Matches[0].DeltaE00);
    }

    [Theory]
    [MemberData(nameof(AllTargets))]
    public async Task What_is_on_the_palette_stays_and_what_is_added_makes_the_recipe(string target)
    {
        var answer = await Match(new MatchRequest { Target = Colour(target), Base = Text("4 tarred rope + 2 kelp"), Paints = 2, Drops = 5 });
        foreach (var match in answer.Matches)
        {
            var added = match.Added.ToDictionary(part => part.PaintId, part => part.Parts);
            Assert.InRange(added.Count, 0, 2);
            Assert.InRange(added.Values.Sum(), 0, 5);
            Assert.All(added.Values, drops => Assert.Equal(Math.Round(drops), drops));
            added["tarred-rope"] = added.GetValueOrDefault("tarred-rope") + 4;
            added["kelp"] = added.GetValueOrDefault("kelp") + 2;
            Assert.Equal(added.OrderBy(part => part.Key), match.Recipe.Parts.ToDictionary(part => part.PaintId, part => part.Parts).OrderBy(part => part.Key));
        }
    }

    [Fact]
    public async Task A_base_that_is_the_target_needs_nothing_added()
    {
        var mixed = await service.Mixing.PredictAsync(new PredictRequest { Recipe = Text("4 tarred rope + 2 kelp") }, cancellationToken: Stop);
        var answer = await Match(new MatchRequest { Target = new ColorInput { Lab = mixed.Color.Lab }, Base = Text("4 tarred rope + 2 kelp") });
        Assert.Empty(answer.Matches[0].Added);
        Assert.Equal(mixed.Recipe, answer.Matches[0].Recipe);
    }

    [Fact]
    public async Task Without_a_base_what_is_added_is_the_recipe()
    {
        var answer = await Match(new MatchRequest { Target = Colour("#5a6b3c") });
        Assert.All(answer.Matches, match => Assert.Equal(match.Recipe.Parts, match.Added));
    }

    [Theory]
    [MemberData(nameof(AllTargets))]
    public async Task The_worst_of_several_lights_is_made_as_small_as_it_can_be(string target)
    {
        var lights = new[] { Light("D65"), Light("A"), Light("FL11") };
        var worst = await Match(new MatchRequest { Target = Colour(target), Lights = { lights }, Tolerance = 0 });
        Assert.Equal(["D65", "A", "FL11"], worst.Matches[0].Lights.Select(light => light.Light));
        Assert.Equal(worst.Matches[0].DeltaE00, worst.Matches[0].Lights.Max(light => light.DeltaE00));
        foreach (var one in lights)
        {
            // The best under one light alone is no better under the worst of them.
            var alone = await Match(new MatchRequest { Target = Colour(target), Lights = { one }, Tolerance = 0 });
            var there = await UnderEach(alone.Matches[0].Recipe, target, lights);
            Assert.True(worst.Matches[0].DeltaE00 <= there.Max() + 1e-6, $"{worst.Matches[0].DeltaE00} > {there.Max()}");
        }
    }

    [Theory]
    [MemberData(nameof(AllTargets))]
    public async Task Weighted_lights_give_the_smallest_weighted_mean(string target)
    {
        var lights = new[] { Light("D65", 3), Light("A", 1) };
        var weighted = await Match(new MatchRequest { Target = Colour(target), Lights = { lights }, LightRule = "weighted", Tolerance = 0 });
        var worst = await Match(new MatchRequest { Target = Colour(target), Lights = { Light("D65"), Light("A") }, Tolerance = 0 });
        double Mean(IEnumerable<double> differences) => differences.Zip([0.75, 0.25], (difference, share) => difference * share).Sum();
        Assert.Equal(weighted.Matches[0].DeltaE00, Mean(weighted.Matches[0].Lights.Select(light => light.DeltaE00)), 6);
        Assert.True(weighted.Matches[0].DeltaE00 <= Mean(worst.Matches[0].Lights.Select(light => light.DeltaE00)) + 1e-6);
    }

    [Fact]
    public async Task A_measured_lamp_counts_as_the_published_one_does()
    {
        // Power without any change over the wavelengths is illuminant E, by its definition in CIE 15; here it only has to be one of two.
        var flat = new MatchLight { Name = "flat", WavelengthNm = { 380, 730 }, RelativePower = { 1, 1 } };
        var answer = await Match(new MatchRequest { Target = Colour("#5a6b3c"), Lights = { flat, Light("A") } });
        Assert.Equal(["flat", "A"], answer.Matches[0].Lights.Select(light => light.Light));
    }

    [Fact]
    public async Task Medium_comes_in_only_where_it_is_allowed_and_must()
    {
        var allowed = await Match(new MatchRequest { Target = Colour("#5a6b3c"), Medium = true, Must = { "brine medium" } });
        Assert.All(allowed.Matches, match => Assert.Contains("brine-medium", Ids(match)));
        var free = await Match(new MatchRequest { Target = Colour("#5a6b3c") });
        Assert.All(free.Matches, match => Assert.DoesNotContain("brine-medium", Ids(match)));
    }

    [Theory]
    [MemberData(nameof(AllTargets))]
    public async Task A_coarser_eye_gets_a_recipe_that_is_no_harder_to_mix(string target)
    {
        var exact = await Match(new MatchRequest { Target = Colour(target), Tolerance = 0 });
        var usual = await Match(new MatchRequest { Target = Colour(target) });
        var stated = await Match(new MatchRequest { Target = Colour(target), Tolerance = 0.5 });
        var coarse = await Match(new MatchRequest { Target = Colour(target), Tolerance = 6 });
        Assert.Equal(usual, stated);
        Assert.True(coarse.Matches[0].Recipe.Parts.Count <= exact.Matches[0].Recipe.Parts.Count);
        Assert.True(coarse.Matches[0].DeltaE00 <= exact.Matches[0].DeltaE00 + 6);
    }

    [Fact]
    public async Task As_many_recipes_are_answered_as_were_asked_at_most()
    {
        var one = await Match(new MatchRequest { Target = Colour("#5a6b3c"), Answers = 1 });
        var many = await Match(new MatchRequest { Target = Colour("#5a6b3c"), Answers = 9 });
        Assert.Single(one.Matches);
        Assert.InRange(many.Matches.Count, 2, 9);
        Assert.Equal(one.Matches[0], many.Matches[0]);
    }

    [Fact]
    public async Task The_finish_is_that_of_the_view()
    {
        var matt = await service.Mixing.PredictAsync(new PredictRequest { Recipe = Text("2 kelp + 1 chalk cliff"), View = new View { Finish = "matt" } }, cancellationToken: Stop);
        var answer = await Match(new MatchRequest { Target = new ColorInput { Lab = matt.Color.Lab }, View = new View { Finish = "matt" }, Tolerance = 0 });
        Assert.InRange(answer.Matches[0].DeltaE00, 0, 0.001);
    }

    [Fact]
    public async Task A_bottle_takes_up_to_eighty_drops_and_comes_no_less_near()
    {
        var palette = await Match(new MatchRequest { Target = Colour("#5a6b3c"), Drops = 6, Tolerance = 0 });
        var bottle = await Match(new MatchRequest { Target = Colour("#5a6b3c"), Drops = 80, Tolerance = 0 });
        Assert.True(bottle.Proven);
        Assert.True(bottle.Matches[0].DeltaE00 <= palette.Matches[0].DeltaE00);
        Assert.True(bottle.Recipes > palette.Recipes);
    }

    [Fact]
    public async Task Each_answer_tells_the_drop_too_many_and_the_worst_light()
    {
        var answer = await Match(new MatchRequest { Target = Colour("#5a6b3c") });
        foreach (var match in answer.Matches.Where(match => match.Recipe.Parts.Count > 1))
        {
            Assert.Equal($"one drop of {match.DropTooMany.Paint} too many: ", match.DropTooMany.Words[..^match.DropTooMany.Words.Split(": ")[1].Length]);
            Assert.Contains(match.DropTooMany.PaintId, Ids(match));
            Assert.True(match.WorstLight.DeltaE00 >= match.DeltaE00 - 1e-6);
            Assert.True(match.ExpectedError.BoundDeltaE00 > 0);
        }
    }

    [Fact]
    public async Task A_paint_that_would_open_an_unreachable_colour_does_so_on_the_shelf()
    {
        var answer = await Match(new MatchRequest { Target = Colour("#b000b0") });
        Assert.False(answer.Reached);
        Assert.True(answer.Proven);
        Assert.Contains("more vivid", answer.Wanted.Words, StringComparison.Ordinal);

        // Bought and put on the shelf, it does what was said.
        var lab = answer.Wanted.Color.Lab;
        service.Import("opened", Coast.Table + FormattableString.Invariant($"\nwanted,,{lab.L},{lab.A},{lab.B},,new,paint,,,,,\n"));
        var opened = await Match(new MatchRequest { Shelf = "opened", Target = Colour("#b000b0") });
        Assert.True(opened.Reached);
        Assert.Contains("wanted", Ids(opened.Matches[0]));
    }

    [Fact]
    public async Task What_a_reached_colour_lacks_is_nothing()
    {
        var answer = await Match(new MatchRequest { Target = Colour("#3f4a2b") });
        Assert.True(answer.Reached);
        Assert.Null(answer.Wanted);
    }

    [Theory]
    [InlineData("must[0]", "'klep'", "{\"must\": [\"klep\"]}")]
    [InlineData("must", "4 paints must be in", "{\"must\": [\"kelp\", \"rust\", \"tide\", \"chalk\"]}")]
    [InlineData("must", "is a medium, and medium is not allowed", "{\"must\": [\"brine medium\"]}")]
    [InlineData("must", "leaves nothing when it dries", "{\"must\": [\"water\"]}")]
    [InlineData("must_not", "must be in the recipe and must not", "{\"must\": [\"kelp\"], \"mustNot\": [\"kelp\"]}")]
    [InlineData("must_not[0]", "'nothing such'", "{\"mustNot\": [\"nothing such\"]}")]
    [InlineData("must_not", "leaves no paint", "{\"mustNot\": [\"tarred\", \"kelp\", \"sea\", \"tide\", \"buoy\", \"chalk\", \"rust\"]}")]
    [InlineData("base.text", "'klep'", "{\"base\": {\"text\": \"2 klep\"}}")]
    [InlineData("base", "No recipe is given", "{\"base\": {}}")]
    [InlineData("lights[0].name", "'X'", "{\"lights\": [{\"name\": \"X\"}]}")]
    [InlineData("lights[1].weight", "0 is no weight", "{\"lights\": [{\"name\": \"A\"}, {\"name\": \"A\", \"weight\": 0}], \"lightRule\": \"weighted\"}")]
    [InlineData("lights[0].weight", "there are no weights", "{\"lights\": [{\"name\": \"A\", \"weight\": 2}]}")]
    [InlineData("light_rule", "'best' is no rule", "{\"lightRule\": \"best\"}")]
    [InlineData("tolerance", "-1 is not from 0 to 100", "{\"tolerance\": -1}")]
    [InlineData("answers", "101 is not from 1 to 100", "{\"answers\": 101}")]
    [InlineData("drops", "81 is not from 1 to 80", "{\"drops\": 81}")]
    [InlineData("paints", "4 is not from 1 to 3", "{\"paints\": 4}")]
    public async Task What_cannot_be_is_refused_with_field_value_and_what_is_expected(string field, string said, string json)
    {
        var request = JsonParser.Default.Parse<MatchRequest>(json);
        request.Target = Colour("#5a6b3c");
        var refusal = await Assert.ThrowsAsync<RpcException>(() => Match(request));
        Assert.Equal(StatusCode.InvalidArgument, refusal.StatusCode);
        var violation = Assert.Single(refusal.GetRpcStatus()!.GetDetail<BadRequest>().FieldViolations);
        Assert.Equal(field, violation.Field);
        Assert.Contains(said, violation.Description, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Telling_the_way_ends_in_the_same_answer()
    {
        foreach (var target in Targets)
        {
            var request = new MatchRequest { Target = Colour(target), Must = { "kelp" }, Drops = 12 };
            using var call = service.Mixing.MatchWithProgress(new MatchWithProgressRequest { Match = request }, cancellationToken: Stop);
            var parts = await call.ResponseStream.ReadAllAsync(Stop).ToListAsync(Stop);
            Assert.Equal(await Match(request), parts[^1].Answer);
            Assert.All(parts.SkipLast(1), part => Assert.False(part.Progress.SoFar.Proven));
        }
    }

    [Fact]
    public async Task A_watched_match_is_refused_as_one_that_is_not()
    {
        using var nothing = service.Mixing.MatchWithProgress(new MatchWithProgressRequest(), cancellationToken: Stop);
        var refusal = await Assert.ThrowsAsync<RpcException>(() => nothing.ResponseStream.MoveNext(Stop));
        Assert.Equal("match", Assert.Single(refusal.GetRpcStatus()!.GetDetail<BadRequest>().FieldViolations).Field);
        using var wrong = service.Mixing.MatchWithProgress(new MatchWithProgressRequest { Match = new MatchRequest { Target = Colour("#5a6b3c"), Must = { "klep" } } }, cancellationToken: Stop);
        refusal = await Assert.ThrowsAsync<RpcException>(() => wrong.ResponseStream.MoveNext(Stop));
        Assert.Equal("must[0]", Assert.Single(refusal.GetRpcStatus()!.GetDetail<BadRequest>().FieldViolations).Field);
    }

    [Fact]
    public async Task Json_tells_the_way_line_by_line()
    {
        using var content = new StringContent("""{"target": {"text": "#5a6b3c"}, "must": ["kelp"]}""", System.Text.Encoding.UTF8, "application/json");
        using var answer = await service.Http.PostAsync("/v1/match:progress", content, Stop);
        var lines = (await answer.Content.ReadAsStringAsync(Stop)).Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(
            await Match(new MatchRequest { Target = Colour("#5a6b3c"), Must = { "kelp" } }),
            JsonParser.Default.Parse<MatchWithProgressResponse>(lines[^1]).Answer);
    }

    private static ColorInput Colour(string text) => new() { Text = text };

    private static RecipeInput Text(string text) => new() { Text = text };

    private static MatchLight Light(string name, double? weight = null)
    {
        var light = new MatchLight { Name = name };
        if (weight is { } stated)
        {
            light.Weight = stated;
        }

        return light;
    }

    private static HashSet<string> Ids(Match match) => [.. match.Recipe.Parts.Select(part => part.PaintId)];

    private async Task<MatchResponse> Match(MatchRequest request) => await service.Mixing.MatchAsync(request, cancellationToken: Stop);

    // How far a recipe is off under each light, by the call that looks at recipes under lamps.
    private async Task<double[]> UnderEach(Recipe recipe, string target, IEnumerable<MatchLight> lights)
    {
        var request = new LightRequest { Target = Colour(target), Recipes = { Text(recipe.Text) }, Lamps = { lights.Select(light => new Lamp { Name = light.Name }) } };
        var looks = await new Layering.LayeringClient(service.Channel).LightAsync(request, cancellationToken: Stop);
        return [.. looks.Matches.Select(match => match.DeltaE00)];
    }
}
