namespace MixEngine.Colorimetry;

/// <summary>
/// CIEDE2000 colour difference with kL = kC = kH = 1 [CIE142] [Sharma2005]. About 1 is what a trained eye just sees
/// side by side. It is not a metric: the triangle inequality does not hold.
/// </summary>
public static class DeltaE2000
{
    private const double DegreesPerRadian = 180 / Math.PI;
    private const double Pow25To7 = 6103515625.0;
    private const double Sin30 = 0.5;

    private static readonly double Cos30 = Math.Cos(30 / DegreesPerRadian), Sin6 = Math.Sin(6 / DegreesPerRadian), Cos6 = Math.Cos(6 / DegreesPerRadian);
    private static readonly double Sin63 = Math.Sin(63 / DegreesPerRadian), Cos63 = Math.Cos(63 / DegreesPerRadian);

    /// <summary>The difference; symmetric, 0 only for equal colours.</summary>
    public static double Between(Lab first, Lab second)
    {
        // Stretch a near the neutral axis. (Sharma 2005, eq. 2 to 7)
        var meanC7 = Pow7((first.Chroma + second.Chroma) / 2);
        var g = 0.5 * (1 - Math.Sqrt(meanC7 / (meanC7 + Pow25To7)));
        var (a1, b1) = ((1 + g) * first.A, first.B);
        var (a2, b2) = ((1 + g) * second.A, second.B);
        var c1 = Math.Sqrt(a1 * a1 + b1 * b1);
        var c2 = Math.Sqrt(a2 * a2 + b2 * b2);
        var h1 = Hue.Angle(a1, b1);
        var h2 = Hue.Angle(a2, b2);

        // The hue step, the short way round, and the hue between. (eq. 10 and 14)
        // Whether the short way crosses 0 degrees is read from the side on which the second colour lies, not from the
        // difference of two angles, which rounding can push over 180 for opposite hues.
        double hueStep, meanHue;
        if (c1 * c2 == 0)
        {
            hueStep = 0;
            meanHue = h1 + h2;
        }
        else
        {
            var side = a1 * b2 - a2 * b1;
            var crossesZero = h2 > h1 ? side < 0 : side > 0;
            hueStep = h2 - h1;
            meanHue = (h1 + h2) / 2;
            if (crossesZero)
            {
                hueStep += h2 > h1 ? -360 : 360;
                meanHue += h1 + h2 < 360 ? 180 : -180;
            }
        }

        // Differences in lightness, chroma and hue. (eq. 8, 9, 11)
        var dL = second.L - first.L;
        var dC = c2 - c1;
        var dH = 2 * Math.Sqrt(c1 * c2) * Sin(hueStep / 2);

        var (sL, sC, sH, rT) = Weights((first.L + second.L) / 2, (c1 + c2) / 2, meanHue);

        // The length of the weighted difference. (eq. 22)
        var (l, c, h) = (dL / sL, dC / sC, dH / sH);
        return Math.Sqrt(Math.Max(0, l * l + c * c + h * h + rT * c * h));
    }

    /// <summary>
    /// What the difference is near a colour: dE² = dᵀGd for small steps d in L, a and b, with the weights of the colour itself. The row order is L, a, b; G is symmetric.
    /// </summary>
    /// <remarks>
    /// The differential of the formula in [Sharma2005], eq. 2 to 22: both colours share one stretch of a, so da' = (1+G)·da; dC' and dH' are the radial and the tangential
    /// part of (da', db). On the neutral axis, where hue has no direction, both weigh 1 as they do in its neighbourhood.
    /// </remarks>
    public static (double LL, double AA, double BB, double AB) MetricAt(Lab color)
    {
        var chroma7 = Pow7(color.Chroma);
        var stretch = 1 + 0.5 * (1 - Math.Sqrt(chroma7 / (chroma7 + Pow25To7)));
        var (a, b) = (stretch * color.A, color.B);
        var c = Math.Sqrt(a * a + b * b);
        var (sL, sC, sH, rT) = Weights(color.L, c, Hue.Angle(a, b));
        var (radialA, radialB) = c > 0 ? (a / c, b / c) : (1, 0);

        // (dC'/sC)² + (dH'/sH)² + rT·dC'·dH'/(sC·sH), with dC' = radial·d and dH' = radial turned by 90 degrees·d.
        var (cc, hh, ch) = (1 / (sC * sC), 1 / (sH * sH), rT / (sC * sH));
        return (
            1 / (sL * sL),
            stretch * stretch * (cc * radialA * radialA + hh * radialB * radialB - ch * radialA * radialB),
            cc * radialB * radialB + hh * radialA * radialA + ch * radialA * radialB,
            stretch * ((cc - hh) * radialA * radialB + ch * (radialA * radialA - radialB * radialB) / 2));
    }

    // What a step in lightness, chroma and hue is divided by, and how the latter two interact in the blue. (eq. 15 to 21)
    private static (double SL, double SC, double SH, double RT) Weights(double meanL, double meanC, double meanHue)
    {
        // Cosines of multiples of one angle follow from its own: cos 2h = 2cos²h - 1, cos 3h = cos h·(2cos 2h - 1), and so on.
        var (sin1, cos1) = Math.SinCos(meanHue / DegreesPerRadian);
        var (sin2, cos2) = (2 * sin1 * cos1, 2 * cos1 * cos1 - 1);
        var (sin3, cos3) = (sin1 * (2 * cos2 + 1), cos1 * (2 * cos2 - 1));
        var (sin4, cos4) = (2 * sin2 * cos2, 2 * cos2 * cos2 - 1);
        var t = 1
            - 0.17 * (cos1 * Cos30 + sin1 * Sin30)
            + 0.24 * cos2
            + 0.32 * (cos3 * Cos6 - sin3 * Sin6)
            - 0.20 * (cos4 * Cos63 + sin4 * Sin63);
        var l50 = (meanL - 50) * (meanL - 50);
        var sL = 1 + 0.015 * l50 / Math.Sqrt(20 + l50);
        var sC = 1 + 0.045 * meanC;
        var sH = 1 + 0.015 * meanC * t;

        var bluish = (meanHue - 275) / 25;
        var dTheta = 30 * Math.Exp(-bluish * bluish);
        var meanC7 = Pow7(meanC);
        var rC = 2 * Math.Sqrt(meanC7 / (meanC7 + Pow25To7));
        return (sL, sC, sH, -Sin(2 * dTheta) * rC);
    }

    private static double Sin(double degrees) => Math.Sin(degrees / DegreesPerRadian);

    private static double Pow7(double x)
    {
        var x3 = x * x * x;
        return x3 * x3 * x;
    }
}
