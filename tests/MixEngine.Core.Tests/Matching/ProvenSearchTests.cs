using CsCheck;
using MixEngine.Colorimetry;
using static MixEngine.Core.Tests.InventedPaints;

namespace MixEngine.Core.Tests.Matching;

/// <summary>The fast search against the slow obvious one: the same best recipe and the same smallest difference, for every kind of shelf and option.</summary>
public class ProvenSearchTests
{
    /// <summary>More shelves of every kind where MIXENGINE_PROOF_TIMES says so, such as 20 for forty thousand.</summary>
    private static readonly int Times = int.TryParse(Environment.GetEnvironmentVariable("MIXENGINE_PROOF_TIMES"), out var times) && times > 0 ? times : 1;

    private static readonly Gen<Paint> Strange = Gen.Select(Any, Gen.Double[-2, 2], Gen.Double[-2, 2], Gen.Double[0, 9], Gen.Enum<Grade>(), Gen.OneOf(Gen.Const(20.0), Gen.Double[15, 50]))
        .Select((paint, strength, tilt, steep, grade, drops) => paint with
        {
            Grade = grade == Grade.None ? Grade.Color : grade,
            DropsPerMl = drops,
            Optics = paint.Optics.Scaled(
                [.. Enumerable.Range(0, SpectralGrid.Bands).Select(band => Math.Exp(strength + tilt * (band - 18) / 18.0 + Math.Tanh(steep * (band - 20))))],
                [.. Enumerable.Range(0, SpectralGrid.Bands).Select(band => Math.Exp(strength))], 1),
        });

    private static readonly Gen<Lab> AnyColor = Gen.Select(Gen.Double[2, 98], Gen.Double[-70, 70], Gen.Double[-70, 70]).Select((l, a, b) => new Lab(l, a, b));

    private static Gen<Paint[]> Shelf(Gen<Paint> paint, int least, int most) => paint.Array[least, most].Select(paints => paints.Select((one, i) => one with { Id = $"{i:00}-{one.Id}" }).ToArray());

    private static Gen<T> OneOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static MatchTarget Daylight(Lab lab) => MatchTarget.OfLab(lab, ViewingCondition.Default);

    private static void Agree(MatchTarget target, Paint[] shelf, MatchOptions options)
    {
        var oracle = new EveryRecipe(target, shelf, options);
        var found = RecipeSearch.Find(target, shelf, options, TestContext.Current.CancellationToken);
        Assert.True(found.Proven);
        Assert.Equal(oracle.Smallest, found.SmallestDeltaE00 ?? oracle.Smallest, 8);
        Assert.True(found.PossibleDeltaE00 <= oracle.Smallest + 1e-8);
        Assert.Equal(oracle.All.Length, found.Recipes);
        var first = oracle.InOrder().First();
        Assert.Equal(Text(first.Added), Text(found.Best.Added));
        Assert.Equal(first.Difference, found.Best.DeltaE00, 8);
    }

    private static string Text(IEnumerable<Part> parts) => string.Join(" + ", parts.OrderBy(part => part.Paint.Id, StringComparer.Ordinal).Select(part => $"{part.Parts} {part.Paint.Id}"));

    [Fact]
    public void Any_shelf_any_target() =>
        Gen.Select(Shelf(Any, 1, 7), AnyColor, Gen.Int[1, 3], Gen.Int[1, 6], OneOf(0.0, 0.5, 2.0)).Sample(
            (shelf, target, paints, drops, tolerance) => Agree(Daylight(target), shelf, new() { Paints = paints, Drops = drops, Tolerance = tolerance }), iter: 300 * Times);

    [Fact]
    public void A_target_near_a_mixture() =>
        Gen.Select(Shelf(Any, 3, 7), Gen.Int[1, 4].Array[3], Gen.Double[-1.5, 1.5].Array[3], Gen.Int[3, 8], OneOf(0.5, 2.0, 4.0)).Sample((shelf, drops, off, most, tolerance) =>
        {
            var mixture = Prediction.AppearanceOf(new Recipe(shelf.Take(3).Zip(drops, (paint, parts) => new Part(paint, parts))), View.Default).Lab;
            Agree(Daylight(new Lab(mixture.L + off[0], mixture.A + off[1], mixture.B + off[2])), shelf, new() { Drops = most, Tolerance = tolerance });
        }, iter: 300 * Times);

    [Fact]
    public void Any_mixture_that_was_predicted_is_found_whatever_its_drops() =>
        Gen.Select(Shelf(Strange, 3, 20), Gen.Int[1, 26].Array[3], Gen.Int[0, 2]).Sample((shelf, drops, onBase) =>
        {
            var start = onBase == 0 ? new Recipe([new(shelf[^1] with { Id = "start" }, 3.7)]) : null;
            var recipe = new Recipe((start?.Parts ?? []).Concat(shelf.Take(3).Zip(drops, (paint, parts) => new Part(paint, parts))));
            var target = MatchTarget.OfReflectance(Prediction.AppearanceOf(recipe, View.Default).Reflectance);
            var found = RecipeSearch.Find(target, shelf, new() { Drops = drops.Sum(), Tolerance = 0, Base = start }, TestContext.Current.CancellationToken);
            Assert.True(found.Proven);
            Assert.Equal(0, found.SmallestDeltaE00!.Value, 8);
        }, iter: 60 * Times);

    [Fact]
    public void A_mixture_of_twins_is_found_whatever_its_drops() =>
        Gen.Select(Shelf(Strange, 2, 3), Gen.Int[1, 26].Array[3], OneOf(0.0, 1e-9, 1e-6, 1e-3)).Sample((shelf, drops, apart) =>
        {
            // The three sums of all their mixtures lie on a line, or nearly so: the most slender of patches.
            var shift = Enumerable.Repeat(Math.Exp(apart), SpectralGrid.Bands).ToArray();
            Paint[] twins = [.. shelf, .. shelf.Select(paint => paint with { Id = "t" + paint.Id, Optics = paint.Optics.Scaled(shift, shift, 1) })];
            var recipe = new Recipe([new(twins[0], drops[0]), new(twins[1], drops[1]), new(twins[^1], drops[2])]);
            var target = MatchTarget.OfReflectance(Prediction.AppearanceOf(recipe, View.Default).Reflectance);
            var found = RecipeSearch.Find(target, twins, new() { Drops = drops.Sum(), Tolerance = 0 }, TestContext.Current.CancellationToken);
            Assert.True(found.Proven);
            Assert.Equal(0, found.SmallestDeltaE00!.Value, 8);
        }, iter: 60 * Times);

    [Fact]
    public void More_paints_than_a_block_holds() =>
        Gen.Select(Shelf(Any, 17, 24), AnyColor, Gen.Int[3, 4]).Sample(
            (shelf, target, drops) => Agree(Daylight(target), shelf, new() { Drops = drops }), iter: 12 * Times);

    [Fact]
    public void Many_drops() =>
        Gen.Select(Shelf(Any, 3, 4), AnyColor, Gen.Int[12, 24], OneOf(0.0, 0.5)).Sample(
            (shelf, target, drops, tolerance) => Agree(Daylight(target), shelf, new() { Drops = drops, Tolerance = tolerance }), iter: 20 * Times);

    [Fact]
    public void Strange_strengths_steep_curves_counted_drops() =>
        Gen.Select(Shelf(Strange, 2, 7), AnyColor, Gen.Int[2, 5]).Sample(
            (shelf, target, drops) => Agree(Daylight(target), shelf, new() { Drops = drops }), iter: 200 * Times);

    [Fact]
    public void Twins() =>
        Gen.Select(Shelf(Any, 2, 4), AnyColor, Gen.Int[2, 4]).Sample((shelf, target, drops) =>
            Agree(Daylight(target), [.. shelf, .. shelf.Select(paint => paint with { Id = "a" + paint.Id })], new() { Drops = drops }), iter: 100 * Times);

    [Fact]
    public void Nearly_parallel_greys() =>
        Gen.Select(Gen.Int[60, 180], Gen.Int[6, 9], Gen.Int[1, 4]).Sample((level, count, drops) =>
        {
            var greys = Enumerable.Range(0, count).Select(i => Of($"grey {i}", $"#{level + i / 3:x2}{level + (i + 1) / 3:x2}{level + (i + 2) / 3:x2}")).ToArray();
            Agree(Daylight(new Lab(level / 2.55, 0.5, 0.2)), greys, new() { Drops = drops });
        }, iter: 60 * Times);

    [Fact]
    public void One_dominant_tinter() =>
        Gen.Select(Shelf(Any, 2, 5), AnyColor, Gen.Int[2, 6]).Sample((shelf, target, drops) =>
        {
            var strong = shelf[0] with { Id = "strong", Optics = shelf[0].Optics.Scaled(Enumerable.Repeat(Math.Exp(5), SpectralGrid.Bands).ToArray(), Enumerable.Repeat(Math.Exp(5), SpectralGrid.Bands).ToArray(), 1) };
            Agree(Daylight(target), [.. shelf, strong], new() { Drops = drops });
        }, iter: 100 * Times);

    [Fact]
    public void A_target_out_of_reach() =>
        Gen.Select(Shelf(Any, 2, 6), OneOf(new Lab(100, 0, 0), new Lab(0, 0, 0), new Lab(60, 110, 70), new Lab(40, 40, -110), new Lab(90, -100, 90), new Lab(130, 0, 0), new Lab(50, 0, -160))).Sample(
            (shelf, target) => Agree(Daylight(target), shelf, new() { Drops = 5 }), iter: 100 * Times);

    [Fact]
    public void A_target_that_is_a_paint() =>
        Gen.Select(Shelf(Any, 2, 6), OneOf(0.0, 0.5)).Sample((shelf, tolerance) =>
            Agree(MatchTarget.OfReflectance(Prediction.AppearanceOf(Recipe.Of(shelf[0]), View.Default).Reflectance), shelf, new() { Drops = 5, Tolerance = tolerance }), iter: 60 * Times);

    [Fact]
    public void Paints_that_must_and_must_not_be_in() =>
        Gen.Select(Shelf(Any, 4, 7), AnyColor, Gen.Int[0, 3], Gen.Int[3, 6]).Sample((shelf, target, must, drops) =>
            Agree(Daylight(target), shelf, new() { Drops = drops, Must = [.. shelf.Take(must).Select(paint => paint.Id)], MustNot = [shelf[^1].Id] }), iter: 100 * Times);

    [Fact]
    public void A_base_on_the_palette() =>
        Gen.Select(Shelf(Any, 2, 5), AnyColor, Gen.Int[1, 5], Gen.Int[1, 3], Gen.Int[0, 1]).Sample((shelf, target, drops, parts, must) =>
            Agree(Daylight(target), shelf, new()
            {
                Drops = drops,
                Base = new Recipe([new(shelf[0], parts), new(shelf[1] with { Id = "another" }, 1.5)]),
                Must = must == 0 ? [] : [shelf[1].Id],
            }), iter: 100 * Times);

    [Fact]
    public void Several_lights() =>
        Gen.Select(Shelf(Any, 2, 5), AnyColor, Gen.Enum<LightRule>(), Gen.Double[0.1, 3]).Sample((shelf, target, rule, weight) =>
            Agree(Daylight(target), shelf, new()
            {
                Drops = 5,
                Lights = [new(Illuminant.D65, weight), new(Illuminant.A), new(Illuminant.FL11, 0.5)],
                LightRule = rule,
            }), iter: 100 * Times);

    [Fact]
    public void Finishes_of_all_kinds() =>
        Gen.Select(Shelf(Any, 2, 5), AnyColor, Gen.Int[0, 3], Gen.Int[0, 99], Gen.Int[1, 5]).Sample((shelf, target, asked, mix, drops) =>
        {
            var finished = shelf.Select((paint, i) => ((mix >> i) & 3) switch
            {
                0 => paint,
                1 => paint with { Finish = Finish.Matt, Surface = new SurfaceReflection(0.3 + 0.1 * i) },
                2 => paint with { Finish = Finish.Satin, Surface = Finish.Satin.Surface() },
                _ => paint with { Finish = Finish.Gloss },
            }).ToArray();
            Agree(Daylight(target), finished, new() { Drops = drops, View = new View(ViewingCondition.Default, asked == 0 ? null : (Finish)(asked - 1)) });
        }, iter: 150 * Times);

    [Fact]
    public void Medium_where_it_may_be_in() =>
        Gen.Select(Shelf(Any, 1, 4), AnyColor, Gen.Int[0, 1]).Sample((shelf, target, must) =>
            Agree(Daylight(target), [.. shelf, Paint.Medium, Paint.Water], new() { Drops = 4, MediumAllowed = true, Must = must == 0 ? [] : ["medium"] }), iter: 60 * Times);

    [Fact]
    public void Another_light_and_eye() =>
        Gen.Select(Shelf(Any, 2, 5), AnyColor).Sample((shelf, target) =>
            Agree(Daylight(target), shelf, new() { Drops = 5, View = new View(new ViewingCondition(Illuminant.FromName("LED-B1"), Observer.Degree10)) }), iter: 40 * Times);

    [Fact]
    public void The_answer_does_not_depend_on_the_number_of_threads()
    {
        var shelf = Enumerable.Range(0, 60).Select(i => Of($"p{i:00}", $"#{(i * 37 + 20) % 236 + 10:x2}{(i * 91 + 70) % 236 + 10:x2}{(i * 53 + 140) % 236 + 10:x2}", (OpacityWord)(i % 4))).ToArray();
        foreach (var hex in new[] { "#5a6b3c", "#a05038", "#808080" })
        {
            var target = MatchTarget.OfColor(HexColor.Parse(hex).ToXyz(), ViewingCondition.Default);
            var answers = new[] { 1, 2, 3, 8 }.Select(threads =>
                RecipeSearch.Find(target, shelf, new() { Threads = threads, Drops = 8 }, TestContext.Current.CancellationToken).Matches.Select(match => match.Recipe.ToString()).ToArray()).ToArray();
            Assert.All(answers, answer => Assert.Equal(answers[0], answer));
        }
    }
}
