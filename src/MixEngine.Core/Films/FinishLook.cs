using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>The same hiding layer in another finish: only the surface differs, the film beneath is the same [Saunderson1942].</summary>
/// <param name="Finish">The finish.</param>
/// <param name="Appearance">How it looks.</param>
/// <param name="DeltaE00">Difference from the look as measured, CIEDE2000.</param>
/// <param name="IsMeasured">Whether this is the finish in which the paints were measured.</param>
public sealed record FinishLook(Finish Finish, Appearance Appearance, double DeltaE00, bool IsMeasured)
{
    /// <summary>A recipe in matt, satin and gloss.</summary>
    /// <exception cref="ArgumentException">There is no pigment in the recipe.</exception>
    public static IReadOnlyList<FinishLook> Of(Recipe recipe, ViewingCondition condition)
    {
        var measured = Prediction.LabOf(recipe, new View(condition));
        var stated = Mixture.Of(recipe).Finish;
        return
        [
            .. Enum.GetValues<Finish>().Select(finish =>
            {
                var appearance = Prediction.AppearanceOf(recipe, new View(condition, finish));
                return new FinishLook(finish, appearance, DeltaE2000.Between(measured, appearance.Lab), finish == stated);
            }),
        ];
    }
}
