using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// What is believed of a paint's scattering before anything but its colour is known.
/// A hiding white scatters most; a dark or transparent paint hardly scatters, but tints strongly.
/// </summary>
public static class ScatteringPrior
{
    /// <summary>
    /// Scattering of a hiding titanium white, 1/µm: SX = 8 for a dry coat of 20 µm, which hides nine tenths of black against white.
    /// Assumption, no source; only ratios of S matter to mixtures, the unit matters to films.
    /// </summary>
    public const double White = 0.4;

    /// <summary>Natural logarithm by which S falls from white (L = 100) to black (L = 0), for one opacity word. Assumption, no source.</summary>
    public const double FallToBlack = 2.8;

    /// <summary>Standard deviation of ln S around the prior, common to all bands.</summary>
    public const double StandardDeviation = 0.7;

    /// <summary>Standard deviation of ln S between the ends of the spectrum, and between its middle and its ends.</summary>
    public const double ShapeDeviation = 0.3;

    /// <summary>S believed of a paint of this colour and opacity word, 1/µm, the same in all bands.</summary>
    /// <param name="lab">The dried paint alone.</param>
    /// <param name="opacity">The maker's word; null is taken as semi-opaque, the middle of what is sold.</param>
    public static double Scattering(Lab lab, OpacityWord? opacity) =>
        White * Hiding(opacity ?? OpacityWord.SemiOpaque) * Math.Exp(-FallToBlack * (1 - Math.Clamp(lab.L, 0, 100) / 100));

    // Factors on S: common practice, no source. Each word hides about half as well as the one before.
    private static double Hiding(OpacityWord opacity) => opacity switch
    {
        OpacityWord.Opaque => 1,
        OpacityWord.SemiOpaque => 0.5,
        OpacityWord.SemiTransparent => 0.22,
        OpacityWord.Transparent => 0.08,
        _ => throw new ArgumentOutOfRangeException(nameof(opacity), opacity, "An opacity word."),
    };
}
