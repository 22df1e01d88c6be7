using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>What a recipe looks like when it has dried in a hiding layer, and how sure that is.</summary>
/// <param name="Recipe">The recipe.</param>
/// <param name="Appearance">Its colour.</param>
/// <param name="ExpectedError">How far the real mixture may lie from it.</param>
public sealed record Prediction(Recipe Recipe, Appearance Appearance, ExpectedError ExpectedError)
{
    /// <summary>Predicts a recipe.</summary>
    /// <exception cref="ArgumentException">There is no pigment in it: medium and water hide nothing and have no colour of their own.</exception>
    public static Prediction Of(Recipe recipe, View view) =>
        new(recipe, AppearanceOf(recipe, view), ErrorOf(recipe, view));

    /// <summary>The colour alone, without asking how sure it is.</summary>
    public static Appearance AppearanceOf(Recipe recipe, View view, Perturbation perturbation = default)
    {
        var mixture = Hiding(recipe, perturbation);
        return view.Through(view.SurfaceOver(mixture.Surface, mixture.Finish), mixture.OpaqueInternal());
    }

    /// <summary>The Lab alone of <see cref="AppearanceOf"/>.</summary>
    public static Lab LabOf(Recipe recipe, View view, Perturbation perturbation = default) => new HidingColor(recipe, view).Under(perturbation);

    private static Mixture Hiding(Recipe recipe, Perturbation perturbation) => recipe.HasPigment
        ? Mixture.Of(recipe, perturbation)
        : throw new ArgumentException($"'{recipe}' has no pigment, and so no colour of its own; name at least one paint.", nameof(recipe));

    private static ExpectedError ErrorOf(Recipe recipe, View view)
    {
        // A paint alone is what was measured: theory has nothing to explain.
        var pigments = recipe.Parts.Count(part => part.Paint.Kind == PaintKind.Paint);
        return ExpectedError.Propagate(
            recipe.Parts,
            new HidingColor(recipe, view).Under,
            pigments > 1 ? ExpectedError.ModelResidual : 0);
    }
}
