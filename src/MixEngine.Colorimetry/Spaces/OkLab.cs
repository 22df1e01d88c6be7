namespace MixEngine.Colorimetry;

/// <summary>OKLab, an opponent space with straight hue lines, made for screens [Ottosson2020].</summary>
/// <param name="L">Lightness, 0 to 1.</param>
/// <param name="A">Green (negative) to red, about -0.4 to 0.4.</param>
/// <param name="B">Blue (negative) to yellow, about -0.4 to 0.4.</param>
public readonly record struct OkLab(double L, double A, double B)
{
    /// <summary>Below this chroma a colour counts as neutral and has no hue.</summary>
    public const double SmallestChroma = 1e-4;

    private static readonly Matrix3 LinearSrgbToCones = new(
        0.4122214708, 0.5363325363, 0.0514459929,
        0.2119034982, 0.6806995451, 0.1073969566,
        0.0883024619, 0.2817188376, 0.6299787005);

    private static readonly Matrix3 ConesToLab = new(
        0.2104542553, 0.7936177850, -0.0040720468,
        1.9779984951, -2.4285922050, 0.4505937099,
        0.0259040371, 0.7827717662, -0.8086757660);

    private static readonly Matrix3 ConesToLinearSrgb = LinearSrgbToCones.Inverse();
    private static readonly Matrix3 LabToCones = ConesToLab.Inverse();

    /// <summary>Distance from the neutral axis.</summary>
    public double Chroma => Math.Sqrt(A * A + B * B);

    /// <summary>Hue angle in [0, 360); nothing for a neutral.</summary>
    public double? HueDegrees => Hue.Degrees(A, B, SmallestChroma);

    /// <summary>From linear sRGB, in or out of gamut.</summary>
    public static OkLab FromLinearSrgb(LinearSrgb rgb)
    {
        var (l, m, s) = LinearSrgbToCones.Apply(rgb.R, rgb.G, rgb.B);
        var (lightness, a, b) = ConesToLab.Apply(Math.Cbrt(l), Math.Cbrt(m), Math.Cbrt(s));
        return new OkLab(lightness, a, b);
    }

    /// <summary>From tristimulus values relative to a rendering of the D65 white (see <see cref="LinearSrgb.FromXyz"/>).</summary>
    public static OkLab FromXyz(Xyz xyz, Xyz white) => FromLinearSrgb(LinearSrgb.FromXyz(xyz, white));

    /// <summary>Back to linear sRGB.</summary>
    public LinearSrgb ToLinearSrgb()
    {
        var (l, m, s) = LabToCones.Apply(L, A, B);
        var (r, g, b) = ConesToLinearSrgb.Apply(l * l * l, m * m * m, s * s * s);
        return new LinearSrgb(r, g, b);
    }

    /// <summary>Back to tristimulus values relative to a rendering of the D65 white.</summary>
    public Xyz ToXyz(Xyz white) => ToLinearSrgb().ToXyz(white);

    /// <summary>The same colour as lightness, chroma and hue.</summary>
    public OkLCh ToOkLCh() => new(L, Chroma, HueDegrees);
}
