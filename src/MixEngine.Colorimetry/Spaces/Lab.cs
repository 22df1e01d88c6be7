using System.Globalization;

namespace MixEngine.Colorimetry;

/// <summary>CIE 1976 L*a*b* [CIE15].</summary>
/// <param name="L">Lightness: 0 black, 100 the white.</param>
/// <param name="A">Green (negative) to red.</param>
/// <param name="B">Blue (negative) to yellow.</param>
public readonly record struct Lab(double L, double A, double B)
{
    /// <summary>Below this chroma a colour counts as neutral and has no hue: a hundredth of what an eye could tell.</summary>
    public const double SmallestChroma = 0.01;

    private const double Knee = 6.0 / 29;

    /// <summary>Distance from the neutral axis.</summary>
    public double Chroma => Math.Sqrt(A * A + B * B);

    /// <summary>Hue angle in [0, 360); nothing for a neutral.</summary>
    public double? HueDegrees => Hue.Degrees(A, B, SmallestChroma);

    /// <summary>From tristimulus values seen against a white of the same light and observer.</summary>
    public static Lab FromXyz(Xyz xyz, Xyz white)
    {
        var fx = Compress(xyz.X / white.X);
        var fy = Compress(xyz.Y / white.Y);
        var fz = Compress(xyz.Z / white.Z);
        return new Lab(116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz));
    }

    /// <summary>Back to tristimulus values under that white.</summary>
    public Xyz ToXyz(Xyz white)
    {
        var fy = (L + 16) / 116;
        return new Xyz(
            white.X * Expand(fy + A / 500),
            white.Y * Expand(fy),
            white.Z * Expand(fy - B / 200));
    }

    /// <summary>The same colour as lightness, chroma and hue.</summary>
    public LCh ToLCh() => new(L, Chroma, HueDegrees);

    /// <summary>For messages: "Lab(53.24, 80.09, 67.2)".</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"Lab({L:0.####}, {A:0.####}, {B:0.####})");

    // The cube root, continued below (6/29)^3 by its tangent there, so that dark and negative values stay defined.
    private static double Compress(double t) =>
        t > Knee * Knee * Knee ? Math.Cbrt(t) : t / (3 * Knee * Knee) + 4.0 / 29;

    private static double Expand(double f) =>
        f > Knee ? f * f * f : 3 * Knee * Knee * (f - 4.0 / 29);
}
