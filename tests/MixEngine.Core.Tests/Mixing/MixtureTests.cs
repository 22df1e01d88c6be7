using CsCheck;
using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests.Mixing;

public class MixtureTests
{
    private static readonly Gen<Part[]> Parts =
        Gen.Select(InventedPaints.Any, Gen.Double[0.1, 12]).Select((paint, parts) => new Part(paint, parts)).Array[1, 4]
            .Where(parts => parts.Select(part => part.Paint.Id).Distinct().Count() == parts.Length);

    [Fact]
    public void Ratio_of_a_mixture_lies_between_those_of_its_parts() =>
        Parts.Sample(parts =>
        {
            // The mediant of fractions lies between the smallest and the largest of them.
            var mixture = Mixture.Of(new Recipe(parts)).OpaqueInternal();
            var alone = parts.Select(part => Mixture.Of(Recipe.Of(part.Paint)).OpaqueInternal()).ToArray();
            for (var band = 0; band < SpectralGrid.Bands; band++)
            {
                Assert.InRange(mixture[band], alone.Min(r => r[band]) - 1e-12, alone.Max(r => r[band]) + 1e-12);
            }
        }, iter: 200);

    [Fact]
    public void Order_and_scale_of_parts_do_not_matter() =>
        Gen.Select(Parts, Gen.Double[0.01, 100]).Sample((parts, scale) =>
        {
            var one = Mixture.Of(new Recipe(parts)).Optics;
            var other = Mixture.Of(new Recipe(parts.Reverse().Select(part => part with { Parts = part.Parts * scale }))).Optics;
            for (var band = 0; band < SpectralGrid.Bands; band++)
            {
                Assert.Equal(one.K[band], other.K[band], 1e-12 * Math.Max(1, one.K[band]));
                Assert.Equal(one.S[band], other.S[band], 1e-12 * Math.Max(1, one.S[band]));
            }
        }, iter: 200);

    [Fact]
    public void Paint_mixed_with_its_own_twin_is_itself() =>
        Gen.Select(InventedPaints.Any, Gen.Double[0.1, 10], Gen.Double[0.1, 10]).Sample((paint, one, other) =>
        {
            var twin = paint with { Id = paint.Id + "-twin" };
            var mixed = Prediction.AppearanceOf(new Recipe([new Part(paint, one), new Part(twin, other)]), View.Default);
            Assert.Equal(0, DeltaE2000.Between(mixed.Lab, Prediction.AppearanceOf(Recipe.Of(paint), View.Default).Lab), 1e-6);
        }, iter: 200);

    [Fact]
    public void Larger_drops_count_for_more()
    {
        // Ten drops per ml are twice the volume of twenty: one such drop is two of the others.
        var large = InventedPaints.GullWhite with { DropsPerMl = 10 };
        var small = InventedPaints.GullWhite with { DropsPerMl = 20 };
        var one = Prediction.AppearanceOf(new Recipe([new Part(large, 1), new Part(InventedPaints.Kelp with { DropsPerMl = 20 }, 1)]), View.Default).Lab;
        var other = Prediction.AppearanceOf(new Recipe([new Part(small, 2), new Part(InventedPaints.Kelp with { DropsPerMl = 20 }, 1)]), View.Default).Lab;
        Assert.Equal(0, DeltaE2000.Between(one, other), 1e-9);
    }

    [Fact]
    public void Medium_and_water_do_not_change_a_hiding_layer()
    {
        var alone = Prediction.AppearanceOf(Recipe.Of(InventedPaints.TidePool), View.Default).Lab;
        var letDown = Prediction.AppearanceOf(Recipe.Of(InventedPaints.TidePool).LetDown(6, 2), View.Default).Lab;
        Assert.Equal(0, DeltaE2000.Between(alone, letDown), 1e-9);
    }

    [Fact]
    public void Water_thins_the_coat_and_medium_does_not()
    {
        var paint = Recipe.Of(InventedPaints.TidePool);
        Assert.Equal(20, Film.Coat(Mixture.Of(paint)).ThicknessUm, 1e-12);
        Assert.Equal(20, Film.Coat(Mixture.Of(paint.LetDown(3, 0))).ThicknessUm, 1e-12);
        Assert.Equal(10, Film.Coat(Mixture.Of(paint.LetDown(0, 1))).ThicknessUm, 1e-12);
    }

    [Fact]
    public void What_has_no_pigment_has_no_colour_and_what_has_no_film_is_refused()
    {
        Assert.Contains("pigment", Assert.Throws<ArgumentException>(() => Prediction.Of(Recipe.Of(Paint.Medium), View.Default)).Message, StringComparison.Ordinal);
        Assert.Contains("film", Assert.Throws<ArgumentException>(() => Mixture.Of(Recipe.Of(Paint.Water))).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => new Recipe([]));
        Assert.Throws<ArgumentException>(() => new Recipe([new Part(InventedPaints.Kelp, double.NaN)]));
        Assert.Throws<ArgumentException>(() => new Recipe([new Part(InventedPaints.Kelp, 1), new Part(InventedPaints.Kelp, 2)]));
    }
}
