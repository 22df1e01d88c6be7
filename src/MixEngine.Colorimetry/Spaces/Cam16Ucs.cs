namespace MixEngine.Colorimetry;

/// <summary>CAM16-UCS, the space in which plain distance between CAM16 appearances is even to the eye [Li2017].</summary>
/// <param name="J">Lightness J', 0 to 100.</param>
/// <param name="A">a', green (negative) to red.</param>
/// <param name="B">b', blue (negative) to yellow.</param>
public readonly record struct Cam16Ucs(double J, double A, double B)
{
    private const double C1 = 0.007;
    private const double C2 = 0.0228;

    /// <summary>From tristimulus values under given conditions.</summary>
    public static Cam16Ucs FromXyz(Xyz xyz, Cam16ViewingConditions view) => FromCam16(Cam16.FromXyz(xyz, view));

    /// <summary>From the appearance correlates.</summary>
    public static Cam16Ucs FromCam16(Cam16 appearance)
    {
        var j = (1 + 100 * C1) * appearance.J / (1 + C1 * appearance.J);
        var m = Math.Log(1 + C2 * appearance.M) / C2;
        var (a, b) = Hue.Opponents(m, appearance.HueDegrees);
        return new Cam16Ucs(j, a, b);
    }

    /// <summary>Back to tristimulus values under given conditions.</summary>
    public Xyz ToXyz(Cam16ViewingConditions view)
    {
        var j = J / (1 + 100 * C1 - C1 * J);
        var m = (Math.Exp(C2 * Math.Sqrt(A * A + B * B)) - 1) / C2;
        var chroma = m / Math.Sqrt(Math.Sqrt(view.LuminanceLevel));

        // The inverse model reads J, C and the hue only.
        return new Cam16(j, chroma, Hue.Angle(A, B), 0, m, 0, null).ToXyz(view);
    }
}
