namespace MixEngine.Colorimetry;

/// <summary>Shares of the three sRGB primaries, proportional to light [IEC61966-2-1].</summary>
/// <param name="R">0 to 1 inside the gamut; outside it may be anything.</param>
/// <param name="G">As R.</param>
/// <param name="B">As R.</param>
public readonly record struct LinearSrgb(double R, double G, double B)
{
    /// <summary>The white of the standard: chromaticity (0.3127, 0.3290), Y = 100.</summary>
    public static Xyz StandardWhite { get; } = new(100 * 0.3127 / 0.3290, 100, 100 * (1 - 0.3127 - 0.3290) / 0.3290);

    // After the white: they are made from it.
    private static readonly Matrix3 ToXyzMatrix = FromPrimaries();
    private static readonly Matrix3 FromXyzMatrix = ToXyzMatrix.Inverse();

    /// <summary>Whether the colour can be shown as it is, every channel within [0, 1].</summary>
    public bool IsInGamut => R is >= 0 and <= 1 && G is >= 0 and <= 1 && B is >= 0 and <= 1;

    /// <summary>From tristimulus values.</summary>
    /// <param name="xyz">Tristimulus values under D65.</param>
    /// <param name="white">
    /// The white that <paramref name="xyz"/> refers to. It must be a rendering of D65 for the 2-degree observer; the tables and the standard
    /// differ in its fifth digit, and the difference is scaled away, so that white stays exactly white.
    /// </param>
    public static LinearSrgb FromXyz(Xyz xyz, Xyz white)
    {
        var (r, g, b) = FromXyzMatrix.Apply(
            xyz.X / white.X * StandardWhite.X / 100,
            xyz.Y / white.Y * StandardWhite.Y / 100,
            xyz.Z / white.Z * StandardWhite.Z / 100);
        return new LinearSrgb(r, g, b);
    }

    /// <summary>Tristimulus values relative to a rendering of the D65 white (see <see cref="FromXyz"/>).</summary>
    public Xyz ToXyz(Xyz white)
    {
        var (x, y, z) = ToXyzMatrix.Apply(R, G, B);
        return new Xyz(
            100 * x * white.X / StandardWhite.X,
            100 * y * white.Y / StandardWhite.Y,
            100 * z * white.Z / StandardWhite.Z);
    }

    /// <summary>With the transfer curve of the standard; it is odd, so that colours outside the gamut survive the way back.</summary>
    public Srgb ToSrgb() => new(Encode(R), Encode(G), Encode(B));

    private static double Encode(double linear)
    {
        var size = Math.Abs(linear);
        var encoded = size <= 0.0031308 ? 12.92 * size : 1.055 * Math.Pow(size, 1 / 2.4) - 0.055;
        return Math.CopySign(encoded, linear);
    }

    private static Matrix3 FromPrimaries()
    {
        // Chromaticities of the standard's red, green and blue, as columns with Y = 1.
        var primaries = new Matrix3(
            0.64 / 0.33, 0.30 / 0.60, 0.15 / 0.06,
            1, 1, 1,
            0.03 / 0.33, 0.10 / 0.60, 0.79 / 0.06);

        // Their luminances are those that add up to the white.
        var (r, g, b) = primaries.Inverse().Apply(StandardWhite.X / 100, StandardWhite.Y / 100, StandardWhite.Z / 100);
        return primaries.ScaleColumns(r, g, b);
    }
}
