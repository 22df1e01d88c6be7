using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>How well one swatch agrees with all the others.</summary>
/// <param name="Swatch">The swatch as given.</param>
/// <param name="Measured">Its colour: under its own light, or D65 and 10 degrees for a spectrum.</param>
/// <param name="Fitted">The colour that the fitted paints give it.</param>
/// <param name="DeltaE00">CIEDE2000 between the two.</param>
/// <param name="Surprise">
/// How many times larger its misfit is than that of a usual swatch, both measured by what readings, doses and theory explain. Of one that is doubted,
/// the misfit is all the disagreement that goes when it is left out: its own, and what it does to the others.
/// </param>
/// <param name="Remark">What had to be assumed to use it, or why it was not used.</param>
public sealed record SwatchFit(Swatch Swatch, Lab Measured, Lab Fitted, double DeltaE00, double Surprise, string? Remark)
{
    /// <summary>From here on a swatch is likelier mislabelled than unlucky.</summary>
    public const double Suspicious = 4;
}
