namespace MixEngine.Colorimetry;

/// <summary>Chromaticity and luminance factor [CIE15].</summary>
/// <param name="ChromaX">x = X / (X + Y + Z).</param>
/// <param name="ChromaY">y = Y / (X + Y + Z).</param>
/// <param name="Y">Luminance factor in percent.</param>
public readonly record struct XyY(double ChromaX, double ChromaY, double Y)
{
    /// <summary>From tristimulus values. Black (and any sum that is not above 0) has no chromaticity of its own and takes that of the white.</summary>
    public static XyY FromXyz(Xyz xyz, Xyz white)
    {
        var sum = xyz.X + xyz.Y + xyz.Z;
        return sum > 0
            ? new XyY(xyz.X / sum, xyz.Y / sum, xyz.Y)
            : FromXyz(white, white) with { Y = 0 };
    }

    /// <summary>Back to tristimulus values; y must not be 0.</summary>
    public Xyz ToXyz() => new(ChromaX * Y / ChromaY, Y, (1 - ChromaX - ChromaY) * Y / ChromaY);
}
