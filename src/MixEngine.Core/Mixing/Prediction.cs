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
    public static Prediction Of(Recipe recipe, View view)
    {
        // A paint alone is what was measured: theory has nothing to explain.
        var color = new HidingColor(recipe, view);
        var appearance = color.Appearance();
        return new Prediction(recipe, appearance, color.Error(appearance.Lab, recipe.Pigments > 1 ? ExpectedError.ModelResidual : 0));
    }

    /// <summary>The colour alone, without asking how sure it is.</summary>
    public static Appearance AppearanceOf(Recipe recipe, View view) => new HidingColor(recipe, view).Appearance();

    /// <summary>The Lab alone of <see cref="AppearanceOf"/>.</summary>
    public static Lab LabOf(Recipe recipe, View view) => new HidingColor(recipe, view).Lab();
}
