namespace MixEngine.Colorimetry;

/// <summary>CIE 1976 colour difference: plain distance in CIELAB [CIE15].</summary>
public static class DeltaE76
{
    /// <summary>The difference; a true metric, but not even to the eye.</summary>
    public static double Between(Lab first, Lab second)
    {
        var (dL, dA, dB) = (first.L - second.L, first.A - second.A, first.B - second.B);
        return Math.Sqrt(dL * dL + dA * dA + dB * dB);
    }
}
