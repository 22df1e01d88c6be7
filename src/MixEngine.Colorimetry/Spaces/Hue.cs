namespace MixEngine.Colorimetry;

/// <summary>The hue angle of an opponent pair (a, b), shared by all the Lab-like spaces.</summary>
internal static class Hue
{
    /// <summary>Degrees in [0, 360), or nothing where the chroma is too small for a hue to mean anything.</summary>
    public static double? Degrees(double a, double b, double smallestChroma) =>
        Math.Sqrt(a * a + b * b) < smallestChroma ? null : Angle(a, b);

    /// <summary>Degrees in [0, 360), whatever the chroma; 0 for the neutral.</summary>
    public static double Angle(double a, double b)
    {
        var degrees = Math.Atan2(b, a) * (180 / Math.PI);
        return degrees < 0 ? (degrees + 360) % 360 : degrees;
    }

    /// <summary>Back to (a, b); without a hue the colour is neutral.</summary>
    public static (double A, double B) Opponents(double chroma, double? degrees)
    {
        if (degrees is not { } hue)
        {
            return (0, 0);
        }

        var (sin, cos) = Math.SinCos(hue * (Math.PI / 180));
        return (chroma * cos, chroma * sin);
    }
}
