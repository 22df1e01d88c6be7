using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// A lower bound on the CIEDE2000 difference between one colour and every colour of a box [Sharma2005]: each term is taken at its least,
/// each weight at its most. It is what makes skipping a proof.
/// </summary>
internal static class DeltaE2000Bound
{
    private const double Degree = Math.PI / 180;
    private const double Pow25To7 = 6103515625.0;

    // Rounding in what follows is of the order of 1e-13; this is more than enough.
    private const double Rounding = 1e-9;

    /// <summary>No colour of the box is nearer than this to the given one.</summary>
    public static double Lower(Lab color, in LabBox box)
    {
        // The stretch of a* falls with the mean chroma. (Sharma 2005, eq. 2 to 5)
        var chroma1 = color.Chroma;
        var chroma2 = box.Chroma;
        var stretch = new Interval(Stretch((chroma1 + chroma2.High) / 2), Stretch((chroma1 + chroma2.Low) / 2));
        var a1 = Times(new(color.A, color.A), stretch);
        var a2 = Times(box.A, stretch);
        var c1 = new Interval(Hypotenuse(a1.Mignitude, color.B), Hypotenuse(a1.Magnitude, color.B));
        var c2 = new Interval(Hypotenuse(a2.Mignitude, box.B.Mignitude), Hypotenuse(a2.Magnitude, box.B.Magnitude));
        var meanC = new Interval((c1.Low + c2.Low) / 2, (c1.High + c2.High) / 2);

        // Lightness: the least step over the largest weight. (eq. 8, 15)
        var dL = (box.L + -color.L).Mignitude;
        var off = (new Interval(box.L.Low + color.L, box.L.High + color.L) * 0.5 + -50).Magnitude;
        var sL = 1 + 0.015 * off * off / Math.Sqrt(20 + off * off);

        // Chroma. (eq. 9, 16)
        var sC = meanC * 0.045 + 1;
        var dC = new Interval(c2.Low - c1.High, c2.High - c1.Low);

        // Hue: where the box or the colour touches the neutral axis, or the hues may be opposite, nothing is known of it. (eq. 11, 14, 17)
        var (dH, sH, rT) = HueTerms(a1, color.B, a2, box.B, c1, c2, meanC);

        // The shortest weighted step. The rotation takes up to rT|c||h| from it where chroma and hue step the same way. (eq. 22)
        rT = (dC.High <= 0 && dH.Low >= 0) || (dC.Low >= 0 && dH.High <= 0) ? 0 : rT;
        var chromatic = LeastForm(Weighted(dC, sC), Weighted(dH, sH), rT);

        // Near neutral better: da'² + db² = dC² + dH², and no weight is above that of chroma.
        var da = (box.A + -color.A).Mignitude * (1 + stretch.Low);
        var db = (box.B + -color.B).Mignitude;
        var plain = (da * da + db * db) / (sC.High * sC.High) * (1 - rT / 2);
        var l = dL / sL;
        return Math.Max(0, Math.Sqrt(l * l + Math.Max(chromatic, plain)) - Rounding);
    }

    private static (Interval DeltaH, Interval Weight, double Rotation) HueTerms(Interval a1, double b1, Interval a2, Interval b2, Interval c1, Interval c2, Interval meanC)
    {
        var rC = RotationChroma(meanC.High);
        var largest = 2 * Math.Sqrt(c1.High * c2.High);
        var unknown = (new Interval(-largest, largest), HueWeight(meanC, new(0.07, 1.93)), Math.Sin(60 * Degree) * rC);
        if (Angles(a1, new(b1, b1)) is not { } h1 || Angles(a2, b2) is not { } h2)
        {
            return unknown;
        }

        // The step from the one hue to the other, the short way round.
        var turn = Math.Round((h2.Middle - h1.Middle) / 360) * 360;
        var step = new Interval(h2.Low - turn - h1.High, h2.High - turn - h1.Low);
        if (step.Magnitude >= 179.9)
        {
            return unknown;
        }

        var root = new Interval(2 * Math.Sqrt(c1.Low * c2.Low), largest);
        var dH = Product(root, new(Math.Sin(step.Low / 2 * Degree), Math.Sin(step.High / 2 * Degree)));

        // The mean hue lies half a step on; the weight changes by at most 2.41 a radian around it.
        var mean = new Interval(h1.Low + step.Low / 2, h1.High + step.High / 2);
        var t = 1
            - 0.17 * Math.Cos((mean.Middle - 30) * Degree)
            + 0.24 * Math.Cos(2 * mean.Middle * Degree)
            + 0.32 * Math.Cos((3 * mean.Middle + 6) * Degree)
            - 0.20 * Math.Cos((4 * mean.Middle - 63) * Degree);
        var change = 2.41 * mean.Width / 2 * Degree;
        var sH = HueWeight(meanC, new(Math.Max(0.07, t - change), Math.Min(1.93, t + change)));

        // The rotation is strongest at 275 degrees; the mean hue counts modulo 360.
        var fromBlue = mean + -275;
        fromBlue += -Math.Round(fromBlue.Middle / 360) * 360;
        var nearest = fromBlue.Mignitude / 25;
        var rT = Math.Sin(60 * Degree * Math.Exp(-nearest * nearest)) * rC;
        return (dH, sH, rT);
    }

    private static Interval HueWeight(Interval meanC, Interval t) => new(1 + 0.015 * meanC.Low * t.Low, 1 + 0.015 * meanC.High * t.High);

    // Sizes of a step over its weight, from the least to the most.
    private static Interval Weighted(Interval step, Interval weight) => new(step.Mignitude / weight.High, step.Magnitude / weight.Low);

    /// <summary>The least of c² + h² - rT·c·h over two intervals of sizes, 0 or more; with rT below 2 it lies on an edge that faces the origin.</summary>
    private static double LeastForm(Interval c, Interval h, double rT)
    {
        double At(double x, double y) => x * x + y * y - rT * x * y;
        return Math.Min(
            At(c.Low, Math.Clamp(rT * c.Low / 2, h.Low, h.High)),
            At(Math.Clamp(rT * h.Low / 2, c.Low, c.High), h.Low));
    }

    // Hue angles of a box in degrees, in one piece; nothing where it holds the neutral axis.
    private static Interval? Angles(Interval a, Interval b)
    {
        if (a.Mignitude == 0 && b.Mignitude == 0)
        {
            return null;
        }

        // A box that does not hold the origin is seen from it between two of its corners; measure from the direction of its middle.
        var middle = Math.Atan2(b.Middle, a.Middle);
        var (low, high) = (0.0, 0.0);
        Span<(double A, double B)> corners = [(a.Low, b.Low), (a.Low, b.High), (a.High, b.Low), (a.High, b.High)];
        foreach (var (ca, cb) in corners)
        {
            var angle = Math.IEEERemainder(Math.Atan2(cb, ca) - middle, 2 * Math.PI);
            (low, high) = (Math.Min(low, angle), Math.Max(high, angle));
        }

        return new((middle + low) / Degree, (middle + high) / Degree);
    }

    private static double Stretch(double meanChroma) => 0.5 * (1 - Math.Sqrt(Saturation7(meanChroma)));

    private static double RotationChroma(double meanChroma) => 2 * Math.Sqrt(Saturation7(meanChroma));

    private static double Saturation7(double c)
    {
        var c7 = c * c * c;
        c7 = c7 * c7 * c;
        return c7 / (c7 + Pow25To7);
    }

    private static Interval Times(Interval x, Interval stretch) => Product(x, new(1 + stretch.Low, 1 + stretch.High));

    // A factor that is never negative, times anything.
    private static Interval Product(Interval x, Interval y)
    {
        Span<double> all = [x.Low * y.Low, x.Low * y.High, x.High * y.Low, x.High * y.High];
        var (low, high) = (all[0], all[0]);
        foreach (var value in all)
        {
            (low, high) = (Math.Min(low, value), Math.Max(high, value));
        }

        return new(low, high);
    }

    private static double Hypotenuse(double x, double y) => Math.Sqrt(x * x + y * y);
}
