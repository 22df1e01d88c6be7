namespace MixEngine.Colorimetry;

/// <summary>A difference in CIELAB, split into lightness, chroma and what is left for hue.</summary>
internal readonly record struct LChStep(double L, double C, double HSquared)
{
    public static LChStep Between(Lab first, Lab second)
    {
        var dC = first.Chroma - second.Chroma;
        var dA = first.A - second.A;
        var dB = first.B - second.B;

        // Rounding may push what is left slightly below nothing.
        return new LChStep(first.L - second.L, dC, Math.Max(0, dA * dA + dB * dB - dC * dC));
    }
}
