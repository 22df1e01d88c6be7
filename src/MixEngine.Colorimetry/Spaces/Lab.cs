using System.Globalization;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

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
        return Of(fx, fy, fz);
    }

    /// <summary>The same for many colours at once, each within rounding of its own.</summary>
    /// <param name="colors">The colours.</param>
    /// <param name="white">The white of all of them.</param>
    /// <param name="labs">Where they are put, as many.</param>
    /// <exception cref="ArgumentException">There is no place for as many.</exception>
    public static void FromXyz(ReadOnlySpan<Xyz> colors, Xyz white, Span<Lab> labs)
    {
        if (labs.Length < colors.Length)
        {
            throw new ArgumentException($"There are {colors.Length} colours and places for {labs.Length}.", nameof(labs));
        }

        // Four colours are three fours of values.
        var values = MemoryMarshal.Cast<Xyz, double>(colors);
        var (first, second, third) = (Vector256.Create(white.X, white.Y, white.Z, white.X), Vector256.Create(white.Y, white.Z, white.X, white.Y), Vector256.Create(white.Z, white.X, white.Y, white.Z));
        Span<double> f = stackalloc double[12];
        var i = 0;
        for (; i + 4 <= colors.Length; i += 4)
        {
            Compress(Vector256.Create(values[(3 * i)..]) / first).CopyTo(f);
            Compress(Vector256.Create(values[(3 * i + 4)..]) / second).CopyTo(f[4..]);
            Compress(Vector256.Create(values[(3 * i + 8)..]) / third).CopyTo(f[8..]);
            for (var j = 0; j < 4; j++)
            {
                labs[i + j] = Of(f[3 * j], f[3 * j + 1], f[3 * j + 2]);
            }
        }

        for (; i < colors.Length; i++)
        {
            labs[i] = FromXyz(colors[i], white);
        }
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

    private static Lab Of(double fx, double fy, double fz) => new(116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz));

    // The cube root, continued below (6/29)^3 by its tangent there, so that dark and negative values stay defined.
    private static double Compress(double t) =>
        t > Knee * Knee * Knee ? Math.Cbrt(t) : t / (3 * Knee * Knee) + 4.0 / 29;

    private static Vector256<double> Compress(Vector256<double> t) => Vector256.ConditionalSelect(
        Vector256.GreaterThan(t, Vector256.Create(Knee * Knee * Knee)),
        CubeRoot.Of(t),
        t / (3 * Knee * Knee) + Vector256.Create(4.0 / 29));

    private static double Expand(double f) =>
        f > Knee ? f * f * f : 3 * Knee * Knee * (f - 4.0 / 29);
}
