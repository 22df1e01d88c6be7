using CsCheck;
using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests.Films;

public class GlazeTests
{
    private static readonly Gen<double> Share = Gen.Double[0, 1];

    private static PaintedSurface Colored(string hex) => PaintedSurface.OfColor(HexColor.Parse(hex).ToXyz(), ViewingCondition.Default);

    [Fact]
    public void Two_coats_are_one_of_twice_the_thickness() =>
        Gen.Select(InventedPaints.Any, Share, Gen.Double[1, 100]).Sample((paint, backing, um) =>
        {
            var surface = PaintedSurface.OfInternal(Reflectance.Constant(backing));
            var recipe = Recipe.Of(paint).LetDown(2, 0.5);
            var twice = surface.Under(new Coats(recipe, 2, um)).Stack().Films.InternalReflectance;
            var once = surface.Under(new Coats(recipe, 1, 2 * um)).Stack().Films.InternalReflectance;
            for (var band = 0; band < SpectralGrid.Bands; band++)
            {
                Assert.Equal(once[band], twice[band], 1e-9);
            }
        }, iter: 200);

    [Fact]
    public void More_comes_back_over_a_brighter_backing_and_never_more_than_came() =>
        Gen.Select(InventedPaints.Any, Share, Share, Gen.Int[1, 8]).Sample((paint, one, other, count) =>
        {
            var coats = new Coats(Recipe.Of(paint).LetDown(3, 0), count);
            FilmStack Over(double backing) => PaintedSurface.OfInternal(Reflectance.Constant(backing)).Under(coats).Stack().Films;
            var (dark, light) = (Over(Math.Min(one, other)), Over(Math.Max(one, other)));
            for (var band = 0; band < SpectralGrid.Bands; band++)
            {
                Assert.True(dark.InternalReflectance[band] <= light.InternalReflectance[band] + 1e-12);
                Assert.InRange(light.InternalReflectance[band], 0, 1);
            }
        }, iter: 200);

    [Fact]
    public void Glaze_without_pigment_changes_nothing() =>
        Gen.Select(InventedPaints.Any, Gen.Int[1, 20]).Sample((paint, count) =>
        {
            var medium = new Recipe([new Part(Paint.Medium, 3), new Part(Paint.Water, 1)]);
            foreach (var surface in new[] { PaintedSurface.OfHidingLayer(Recipe.Of(paint)), Colored("#c9c9c9") })
            {
                var glaze = Glaze.Over(surface, new Coats(medium, count), View.Default);
                Assert.All(glaze.Coats, coat => Assert.Equal(0, coat.TotalDeltaE00, 1e-9));
                Assert.Contains(glaze.Remarks, remark => remark.Contains("no pigment", StringComparison.Ordinal));
            }
        }, iter: 50);

    [Fact]
    public void Less_and_less_pigment_changes_less_and_less()
    {
        double[] changes = [.. new[] { 1.0, 3, 10, 30, 100 }.Select(medium =>
            Glaze.Over(Colored("#c9c9c9"), new Coats(Recipe.Of(InventedPaints.TidePool).LetDown(medium, 0), 1), View.Default).Coats[0].TotalDeltaE00)];
        Assert.Equal(changes.OrderDescending(), changes);
        Assert.InRange(changes[^1], 0, 2);
    }

    [Fact]
    public void A_well_let_down_turquoise_leaves_a_blend_visible_and_turns_it_blue()
    {
        // Common practice, no source: a blend from black to white under two coats of turquoise at one to eight.
        var coats = new Coats(Recipe.Of(InventedPaints.TidePool).LetDown(8, 0), 2);
        var blend = new[] { "#101010", "#404040", "#808080", "#b8b8b8", "#f0f0f0" }.Select(Colored).ToArray();
        var before = blend.Select(surface => surface.Stack().LabUnder(View.Default)).ToArray();
        var after = blend.Select(surface => Glaze.Over(surface, coats, View.Default).Coats[^1].Appearance.Lab).ToArray();

        // Still a blend: each step lighter than the one before, with most of its steps kept.
        Assert.Equal(after.Select(lab => lab.L).Order(), after.Select(lab => lab.L));
        Assert.True(after[^1].L - after[0].L > 0.6 * (before[^1].L - before[0].L));

        // And blue: every step moved towards turquoise, greener and bluer than the grey it was.
        Assert.All(after.Zip(before), pair => Assert.True(pair.First.A < pair.Second.A - 0.5 && pair.First.B < pair.Second.B - 0.1));
    }

    [Fact]
    public void Base_without_coats_looks_as_given()
    {
        Assert.Equal(0, DeltaE2000.Between(HexColor.Parse("#5a6b3c").ToLab(), Colored("#5a6b3c").Stack().LabUnder(View.Default)), 1e-3);
        Assert.Empty(Colored("#5a6b3c").Remarks);

        // No painted surface is a perfect white.
        Assert.Single(Colored("#ffffff").Remarks);
    }

    [Fact]
    public void Coats_end_in_the_hiding_layer() =>
        InventedPaints.Any.Where(paint => paint.Opacity != OpacityWord.Transparent).Sample(paint =>
        {
            var recipe = Recipe.Of(paint);
            var hiding = PaintedSurface.OfHidingLayer(recipe).Stack().LabUnder(View.Default);
            var glaze = Glaze.Over(Colored("#808080"), new Coats(recipe, 100, 200), View.Default);
            Assert.InRange(DeltaE2000.Between(hiding, glaze.Coats[^1].Appearance.Lab), 0, 0.5);
        }, iter: 50);

    [Fact]
    public void Expected_error_of_no_coat_is_smaller_than_that_of_a_mixture_of_guesses_and_finite() =>
        Gen.Select(InventedPaints.Any, InventedPaints.Any).Sample((below, above) =>
        {
            var glaze = Glaze.Over(
                PaintedSurface.OfHidingLayer(Recipe.Of(below)),
                new Coats(Recipe.Of(above with { Id = "above" }).LetDown(4, 0), 3), View.Default);
            Assert.All(glaze.Coats, coat => Assert.True(double.IsFinite(coat.ExpectedError.Bound) && coat.ExpectedError.Likely <= coat.ExpectedError.Bound && coat.ExpectedError.Bound > 0));
        }, iter: 50);

    [Theory]
    [InlineData(0, 0.4, null)]
    [InlineData(0, 0.8, "weakens")]
    [InlineData(0, 2, "breaks up")]
    [InlineData(12, 0, "more than the ten")]
    [InlineData(6, 1, null)]
    public void What_a_let_down_does_to_the_film_is_said(double medium, double water, string? said)
    {
        var remarks = LetDownLimits.Remarks(Recipe.Of(InventedPaints.TidePool).LetDown(medium, water)).ToArray();
        if (said is null)
        {
            Assert.Empty(remarks);
        }
        else
        {
            Assert.Contains(said, Assert.Single(remarks), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Bad_numbers_are_refused_with_their_value()
    {
        var recipe = Recipe.Of(InventedPaints.TidePool);
        Assert.Contains("101", Assert.Throws<ArgumentOutOfRangeException>(() => new Coats(recipe, 101)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => new Coats(recipe, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Coats(recipe, 1, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Coats(recipe, 1, 0));
        Assert.Throws<ArgumentException>(() => new Coats(Recipe.Of(Paint.Water), 1));
        Assert.Throws<ArgumentException>(() => PaintedSurface.OfHidingLayer(Recipe.Of(Paint.Medium)));
    }
}
