using CsCheck;
using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests.Mixing;

public sealed class HidingColorTests
{
    /// <summary>The same physics, band by band and value by value.</summary>
    private static Lab ByTheMixture(Recipe recipe, View view, Perturbation perturbation)
    {
        var mixture = Mixture.Of(recipe, perturbation);
        return view.LabThrough(view.SurfaceOver(mixture.Surface, mixture.Finish), mixture.OpaqueInternal());
    }

    [Fact]
    public void Is_the_colour_of_the_mixture_under_every_perturbation() =>
        Gen.Select(InventedPaints.Any, InventedPaints.Any, Gen.Double[0.01, 100], Gen.Double[-2, 2], Gen.Int[0, 20]).Sample((one, other, parts, by, mode) =>
        {
            var recipe = new Recipe([new Part(one, 1), new Part(other with { Id = "other" }, parts), new Part(Paint.Medium, 2), new Part(Paint.Water, 1)]);
            Perturbation[] perturbations =
            [
                Perturbation.None, Perturbation.OfDose("other", by), Perturbation.OfCoats(by), Perturbation.OfMode(one.Uncertainty[mode % one.Uncertainty.Length].Key, by),
                Perturbation.OfMode(one.Uncertainty[mode % one.Uncertainty.Length].Key, 1),
            ];
            foreach (var view in new[] { View.Default, new View(ViewingCondition.D65Degree10, Finish.Gloss), new View(ViewingCondition.Default, Finish.Matt) })
            {
                var color = new HidingColor(recipe, view);
                var white = TristimulusWeights.For(view.Condition).White;
                Close(ByTheMixture(recipe, view, Perturbation.None), color.Lab());
                Close(color.Lab(), color.Appearance().Lab);
                foreach (var perturbation in perturbations)
                {
                    var (up, down) = color.Around(perturbation);
                    Close(ByTheMixture(recipe, view, perturbation), Lab.FromXyz(up, white));
                    Close(ByTheMixture(recipe, view, perturbation.Opposite), Lab.FromXyz(down, white));
                }
            }
        }, iter: 300);

    [Fact]
    public void Its_error_is_what_all_doubts_add_up_to() =>
        Gen.Select(InventedPaints.Any, InventedPaints.Any, Gen.Double[0.01, 100]).Sample((one, other, parts) =>
        {
            // The general propagation, which asks the mixture itself; one mode is shared, as among paints learnt together.
            other = other with { Id = "other", Uncertainty = [one.Uncertainty[0], .. other.Uncertainty.Skip(1)] };
            var recipe = new Recipe([new Part(one, 1), new Part(other, parts)]);
            var expected = ExpectedError.Propagate(recipe.Parts, perturbation => [ByTheMixture(recipe, View.Default, perturbation)])[0];
            var color = new HidingColor(recipe, View.Default);
            var actual = color.Error(color.Lab(), ExpectedError.ModelResidual);
            Assert.Equal(expected.Likely, actual.Likely, 1e-8);
            Assert.Equal(expected.Bound, actual.Bound, 1e-8);
        }, iter: 200);

    [Fact]
    public void Has_no_colour_without_pigment() =>
        Assert.Contains("no pigment", Assert.Throws<ArgumentException>(() => new HidingColor(Recipe.Of(Paint.Medium), View.Default)).Message);

    private static void Close(Lab expected, Lab actual)
    {
        Assert.Equal(expected.L, actual.L, 1e-8);
        Assert.Equal(expected.A, actual.A, 1e-8);
        Assert.Equal(expected.B, actual.B, 1e-8);
    }
}
