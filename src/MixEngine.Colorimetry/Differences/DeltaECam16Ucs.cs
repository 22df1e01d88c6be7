namespace MixEngine.Colorimetry;

/// <summary>Plain distance in CAM16-UCS: a true metric that is nearly even to the eye [Li2017].</summary>
public static class DeltaECam16Ucs
{
    /// <summary>The difference of two appearances under the same conditions.</summary>
    public static double Between(Cam16Ucs first, Cam16Ucs second)
    {
        var (dJ, dA, dB) = (first.J - second.J, first.A - second.A, first.B - second.B);
        return Math.Sqrt(dJ * dJ + dA * dA + dB * dB);
    }
}
