using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>When what lies beneath counts as hidden: the coated surface is held against the paint in a hiding layer.</summary>
public static class Hidden
{
    /// <summary>Contrast ratio to be reached, 98 % [ISO6504-3]: the darker of the two luminances divided by the lighter.</summary>
    public const double Contrast = 0.98;

    /// <summary>
    /// Difference in colour that may remain, CIEDE2000: what a trained eye just sees side by side (common practice).
    /// Luminance alone would call a red hidden over a grey of the same luminance before the first coat.
    /// </summary>
    public const double DeltaE00 = 1;

    /// <summary>Whether both hold.</summary>
    public static bool Is(Lab coated, Lab hiding) => HoldsContrast(coated, hiding) && DeltaE2000.Between(coated, hiding) <= DeltaE00;

    /// <summary>Whether the luminances are within the contrast ratio.</summary>
    public static bool HoldsContrast(Lab coated, Lab hiding)
    {
        var (one, other) = (Luminance(coated), Luminance(hiding));
        return Math.Min(one, other) >= Contrast * Math.Max(one, other);
    }

    /// <summary>Luminance as a share of the white's, 0 to 1.</summary>
    internal static double Luminance(Lab lab) => lab.ToXyz(new Xyz(1, 1, 1)).Y;
}
