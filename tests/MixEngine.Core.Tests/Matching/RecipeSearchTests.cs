using CsCheck;
using MixEngine.Colorimetry;
using static MixEngine.Core.Tests.InventedPaints;

namespace MixEngine.Core.Tests.Matching;

public class RecipeSearchTests
{
    private static readonly Gen<(Paint[] Shelf, Lab Target)> Problem =
        Gen.Select(Any.Array[1, 7], Gen.Double[5, 95], Gen.Double[-60, 60], Gen.Double[-60, 60])
            .Select((shelf, l, a, b) => (shelf.DistinctBy(paint => paint.Id).ToArray(), new Lab(l, a, b)));

    private static MatchTarget Daylight(Lab lab) => MatchTarget.OfLab(lab, ViewingCondition.Default);

    private static MatchTarget Hex(string hex) => MatchTarget.OfColor(HexColor.Parse(hex).ToXyz(), ViewingCondition.Default);

    private static MatchResult Find(MatchTarget target, IEnumerable<Paint> shelf, MatchOptions? options = null) =>
        RecipeSearch.Find(target, shelf, options, TestContext.Current.CancellationToken);

    private static Lab ColorOf(Recipe recipe) => Prediction.AppearanceOf(recipe, View.Default).Lab;

    [Fact]
    public void A_match_is_never_worse_than_the_best_single_paint() => Problem.Sample(problem =>
    {
        var result = Find(Daylight(problem.Target), problem.Shelf, new MatchOptions { Drops = 5, Tolerance = 0 });
        var single = problem.Shelf.Min(paint => DeltaE2000.Between(problem.Target, ColorOf(Recipe.Of(paint))));
        Assert.True(result.Proven);
        Assert.True(result.Best.DeltaE00 <= single + 1e-9);
    }, iter: 60);

    [Fact]
    public void It_finds_a_mixture_that_was_predicted() =>
        Gen.Select(Gen.Shuffle(Shelf.ToArray(), 3), Gen.Int[1, 3], Gen.Int[1, 2], Gen.Int[0, 1]).Sample((paints, a, b, c) =>
        {
            Part[] parts = [new(paints[0], a), new(paints[1], b), new(paints[2], c)];
            var recipe = new Recipe(parts.Where(part => part.Parts > 0));
            var result = Find(Daylight(ColorOf(recipe)), Shelf, new MatchOptions { Tolerance = 0 });
            Assert.True(result.Reached || result.Best.DeltaE00 < 1e-6);
            Assert.InRange(result.SmallestDeltaE00!.Value, 0, 1e-6);
        }, iter: 20);

    [Fact]
    public void Every_stated_difference_and_colour_is_that_of_the_recipe()
    {
        var result = Find(Hex("#5a6b3c"), Shelf);
        Assert.All(result.Matches, match =>
        {
            Assert.Equal(ColorOf(match.Recipe), match.Appearance.Lab);
            Assert.Equal(DeltaE2000.Between(Hex("#5a6b3c").Under(ViewingCondition.Default), match.Appearance.Lab), match.DeltaE00, 8);
            Assert.InRange(match.DeltaE00, result.Best.DeltaE00 - MatchOptions.Unseen, result.Best.DeltaE00 + 2);
        });
    }

    [Fact]
    public void Within_what_an_eye_cannot_see_no_simpler_recipe_is_passed_over() => Problem.Sample(problem =>
    {
        var result = Find(Daylight(problem.Target), problem.Shelf, new MatchOptions { Drops = 5 });
        var all = AllRecipes(problem.Shelf, 5).ToArray();
        var limit = all.Min(recipe => DeltaE2000.Between(problem.Target, ColorOf(recipe))) + MatchOptions.Unseen;
        Assert.True(result.Best.DeltaE00 <= limit + 1e-9);
        foreach (var recipe in all.Where(recipe => DeltaE2000.Between(problem.Target, ColorOf(recipe)) < limit - 1e-9))
        {
            var order = recipe.Parts.Count.CompareTo(result.Best.Recipe.Parts.Count);
            Assert.True((order != 0 ? order : recipe.Total.CompareTo(result.Best.Recipe.Total)) >= 0, $"{recipe} is simpler than {result.Best.Recipe}");
        }
    }, iter: 25);

    [Fact]
    public void The_order_of_the_shelf_does_not_matter()
    {
        var forward = Find(Hex("#7d7a5c"), Shelf);
        var backward = Find(Hex("#7d7a5c"), Shelf.Reverse());
        Assert.Equal(forward.Matches.Select(match => match.Recipe.ToString()), backward.Matches.Select(match => match.Recipe.ToString()));
    }

    [Fact]
    public void Twins_are_told_apart_by_their_id()
    {
        Paint[] twins = [Kelp with { Id = "b" }, Kelp with { Id = "a" }];
        Assert.Equal("a", Find(Hex("#27402a"), twins).Best.Recipe.Parts.Single().Paint.Id);
    }

    [Fact]
    public void A_target_that_is_one_paint_is_that_paint_alone()
    {
        var result = Find(Daylight(ColorOf(Recipe.Of(Driftwood))), Shelf);
        Assert.Equal("1 driftwood", result.Best.Recipe.ToString());
        Assert.True(result.Reached);
        Assert.Null(result.Shortfall);
        Assert.Null(result.Best.Harm);
    }

    [Fact]
    public void One_paint_is_answered_with_itself() =>
        Assert.Equal("1 peat", Find(Hex("#ffffff"), [Peat]).Best.Recipe.ToString());

    [Theory]
    [InlineData("#ffffff", "dark")]
    [InlineData("#000000", "light")]
    [InlineData("#ff0000", "dull")]
    public void What_cannot_be_reached_says_why(string target, string fault)
    {
        var result = Find(Hex(target), [Peat, Kelp, Driftwood, SeaLettuce]);
        Assert.False(result.Reached);
        Assert.Contains("too " + fault, result.Shortfall!.Words);
    }

    [Fact]
    public void Two_hundred_nearly_parallel_greys_are_matched()
    {
        var greys = Enumerable.Range(0, 200).Select(i => Of($"slate {i:000}", $"#{80 + i / 4:x2}{80 + i / 4:x2}{80 + (i + 1) / 4:x2}")).ToArray();
        var result = Find(Hex("#6b6b6b"), greys, new MatchOptions { Paints = 2, Drops = 4 });
        Assert.True(result.Proven);
        Assert.Single(result.Best.Recipe.Parts);
    }

    [Fact]
    public void A_grade_of_better_evidence_wins_between_equals()
    {
        Paint[] twins = [Kelp with { Id = "a" }, Kelp with { Id = "b", Grade = Grade.Spectra }];
        Assert.Equal("b", Find(Hex("#27402a"), twins).Best.Recipe.Parts.Single().Paint.Id);
    }

    [Fact]
    public void Alternatives_are_different_in_kind()
    {
        var result = Find(Hex("#6a6f5e"), Shelf, new MatchOptions { Drops = 8, Answers = 6 });
        var kinds = result.Matches.Select(match => string.Join(',', match.Recipe.Parts.Select(part => part.Paint.Id).Order())).ToArray();
        Assert.True(kinds.Length > 1);
        Assert.Equal(kinds.Length, kinds.Distinct().Count());
    }

    [Fact]
    public void Undivided_drops_are_at_least_as_good() => Problem.Sample(problem =>
    {
        var result = Find(Daylight(problem.Target), problem.Shelf, new MatchOptions { Drops = 4, Tolerance = 0 });
        Assert.True(result.Undivided.DeltaE00 <= result.Best.DeltaE00 + 0.05, $"{result.Undivided.Recipe} at {result.Undivided.DeltaE00} against {result.Best.Recipe} at {result.Best.DeltaE00}");
        Assert.Equal(1, result.Undivided.Recipe.Total, 9);
    }, iter: 60);

    [Fact]
    public void A_drop_too_many_is_told_in_words()
    {
        var result = Find(Daylight(ColorOf(new Recipe([new(GullWhite, 3), new(TarredRope, 1)]))), Shelf);
        var worst = result.Matches.First(match => match.Harm is not null).Harm!;
        Assert.Matches("^one drop of .* too many: (slightly|visibly|much) (lighter|darker|redder|greener|yellower|bluer|duller|more vivid)", worst.Words);
    }

    [Fact]
    public void A_stopped_search_answers_with_the_best_so_far()
    {
        using var stopped = new CancellationTokenSource();
        stopped.Cancel();
        var result = RecipeSearch.Find(Hex("#6a6f5e"), Shelf, new MatchOptions { Drops = 12 }, stopped.Token);
        Assert.False(result.Proven);
        Assert.NotEmpty(result.Matches);
    }

    [Fact]
    public void A_measured_target_keeps_its_spectrum_under_every_light()
    {
        var appearance = Prediction.AppearanceOf(Recipe.Of(TidePool), View.Default);
        var result = Find(MatchTarget.OfReflectance(appearance.Reflectance), Shelf);
        Assert.Equal("1 tide pool", result.Best.Recipe.ToString());
        Assert.Equal(0, result.Best.WorstLight.DeltaE00, 9);
    }

    [Fact]
    public void Bad_options_and_shelves_are_refused_by_name()
    {
        var target = Hex("#6a6f5e");
        Assert.Contains("Drops", Assert.Throws<ArgumentOutOfRangeException>(() => Find(target, Shelf, new MatchOptions { Drops = 81 })).Message);
        Assert.Contains("Paints", Assert.Throws<ArgumentOutOfRangeException>(() => Find(target, Shelf, new MatchOptions { Paints = 0 })).Message);
        Assert.Throws<ArgumentException>(() => Find(target, []));
        Assert.Throws<ArgumentException>(() => Find(target, [Paint.Medium]));
        Assert.Contains("kelp", Assert.Throws<ArgumentException>(() => Find(target, [Kelp, Kelp])).Message);
        Assert.Throws<ArgumentException>(() => MatchTarget.OfLab(new Lab(double.NaN, 0, 0), ViewingCondition.Default));
    }

    private static IEnumerable<Recipe> AllRecipes(Paint[] shelf, int drops) =>
        from a in Enumerable.Range(0, shelf.Length)
        from b in Enumerable.Range(a + 1, shelf.Length - a - 1).Append(-1)
        from c in b < 0 ? [-1] : Enumerable.Range(b + 1, shelf.Length - b - 1).Append(-1)
        from i in Enumerable.Range(1, drops)
        from j in b < 0 ? [0] : Enumerable.Range(1, Math.Max(0, drops - i))
        from k in c < 0 ? [0] : Enumerable.Range(1, Math.Max(0, drops - i - j))
        where c < 0 || i + j + k <= drops
        select new Recipe(new[] { (a, i), (b, j), (c, k) }.Where(pair => pair.Item2 > 0).Select(pair => new Part(shelf[pair.Item1], pair.Item2)));
}
