using CsCheck;
using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests.Mixing;

public class PredictionTests
{
    private static Recipe Mix(params (Paint Paint, double Parts)[] parts) => new(parts.Select(part => new Part(part.Paint, part.Parts)));

    [Fact]
    public void Black_into_a_dark_green_lightens_at_every_step()
    {
        // Common practice, no source: 2:1, 1:1, 1:2, 0:1.
        double[] lightness =
        [
            .. new[] { (2.0, 1.0), (1, 1), (1, 2) }.Select(parts => Prediction.AppearanceOf(Mix((InventedPaints.TarredRope, parts.Item1), (InventedPaints.Kelp, parts.Item2)), View.Default).Lab.L),
            Prediction.AppearanceOf(Recipe.Of(InventedPaints.Kelp), View.Default).Lab.L,
        ];
        Assert.Equal(lightness.Order(), lightness);
        Assert.Equal(lightness.Length, lightness.Distinct().Count());
    }

    [Fact]
    public void Two_browns_and_more_and_more_white_lighten_and_stay_a_skin_hue()
    {
        // Common practice, no source. Skin of all tones lies between red and yellow: hue angles of 25 to 85 degrees (from memory).
        var steps = new[] { 0.5, 1, 2, 3, 5 }
            .Select(white => Prediction.AppearanceOf(Mix((InventedPaints.Peat, 1), (InventedPaints.Driftwood, 2), (InventedPaints.GullWhite, white)), View.Default).Lab).ToArray();
        Assert.Equal(steps.Select(lab => lab.L).Order(), steps.Select(lab => lab.L));
        Assert.All(steps, lab => Assert.InRange(lab.HueDegrees!.Value, 25, 85));
    }

    [Fact]
    public void Expected_error_is_wider_for_weaker_evidence_and_for_mixtures()
    {
        var alone = Prediction.Of(Recipe.Of(InventedPaints.Kelp), View.Default).ExpectedError;
        var mixed = Prediction.Of(Mix((InventedPaints.Kelp, 1), (InventedPaints.GullWhite, 1)), View.Default).ExpectedError;
        Assert.True(0 < alone.Likely && alone.Likely < alone.Bound);
        Assert.True(alone.Bound < mixed.Bound);

        var better = InventedPaints.Kelp with { Uncertainty = [.. InventedPaints.Kelp.Uncertainty.Select(Third)] };
        static UncertaintyMode Third(UncertaintyMode mode) => new(mode.Key, [.. mode.FactorK.ToArray().Select(f => Math.Log(f) / 3)], [.. mode.FactorS.ToArray().Select(f => Math.Log(f) / 3)]);
        Assert.True(Prediction.Of(Mix((better, 1), (InventedPaints.GullWhite, 1)), View.Default).ExpectedError.Bound < mixed.Bound);
    }

    [Fact]
    public void A_mode_of_other_bands_or_beyond_all_numbers_is_refused()
    {
        var flat = new double[SpectralGrid.Bands];
        Assert.Contains("35 bands", Assert.Throws<ArgumentException>(() => new UncertaintyMode(1, flat.AsSpan(1), flat)).Message);
        foreach (var beyond in new[] { double.NaN, double.PositiveInfinity, 1000, -1000 })
        {
            Assert.Contains("beyond all numbers", Assert.Throws<ArgumentException>(() => new UncertaintyMode(1, flat, [beyond, .. flat.Skip(1)])).Message);
        }
    }

    [Fact]
    public void Predictions_are_finite_for_any_paints() =>
        Gen.Select(InventedPaints.Any, InventedPaints.Any, Gen.Double[0.01, 100]).Sample((one, other, parts) =>
        {
            var prediction = Prediction.Of(Mix((one, 1), (other with { Id = "other" }, parts)), View.Default);
            Assert.True(double.IsFinite(prediction.Appearance.Lab.L + prediction.Appearance.Lab.A + prediction.Appearance.Lab.B));
            Assert.True(double.IsFinite(prediction.ExpectedError.Bound) && prediction.ExpectedError.Likely <= prediction.ExpectedError.Bound);
        }, iter: 200);

    [Fact]
    public void Stated_probabilities_hold_for_errors_drawn_from_the_modes()
    {
        // Draw the paints' errors as the modes say, and count how often the stated differences contain them. Drops and model residual are left out on both sides.
        var recipe = Recipe.Of(InventedPaints.Driftwood);
        var believed = Prediction.Of(recipe, View.Default);
        var random = new Random(20261125);
        double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        var (likely, bound) = (0, 0);
        const int draws = 4000;
        for (var i = 0; i < draws; i++)
        {
            var paint = InventedPaints.Driftwood;
            foreach (var mode in paint.Uncertainty)
            {
                paint = paint with { Optics = paint.Optics.Scaled(mode.FactorK, mode.FactorS, Normal()) };
            }

            var error = DeltaE2000.Between(believed.Appearance.Lab, Prediction.AppearanceOf(Recipe.Of(paint), View.Default).Lab);
            likely += error <= believed.ExpectedError.Likely ? 1 : 0;
            bound += error <= believed.ExpectedError.Bound ? 1 : 0;
        }

        // Four standard deviations of the count are about 0.03 and 0.014; linearisation may cost a little more.
        Assert.InRange((double)likely / draws, 0.68 - 0.05, 0.68 + 0.05);
        Assert.InRange((double)bound / draws, 0.95 - 0.03, 0.95 + 0.03);
    }
}
