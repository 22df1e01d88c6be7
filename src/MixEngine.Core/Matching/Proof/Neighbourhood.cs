using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// Boxes of CIELAB that together hold every surface colour within a CIEDE2000 difference of a target. CIEDE2000 is not a metric and
/// its neighbourhoods have no closed form, so boxes are cut in halves until they are small, and those that lie provably outside are left out.
/// </summary>
internal sealed class Neighbourhood
{
    // Boxes are cut down to about this share of the neighbourhood's own size: smaller ones fit tighter and take longer.
    private const double Fineness = 0.4;

    private readonly List<LabBox> _boxes = [];

    /// <summary>The neighbourhood of a colour.</summary>
    /// <param name="center">The target.</param>
    /// <param name="radius">CIEDE2000, 0 or more.</param>
    public Neighbourhood(Lab center, double radius)
    {
        Center = center;
        Radius = radius;
        var smallest = Math.Max(1e-6, Fineness * radius);
        var open = new Stack<LabBox>();
        if (StartBox(center, radius) is { } start)
        {
            open.Push(start);
        }

        while (open.TryPop(out var box))
        {
            if (DeltaE2000Bound.Lower(center, box) > radius)
            {
                continue;
            }

            if (box.Size <= smallest * Scale(box))
            {
                _boxes.Add(box);
                continue;
            }

            var (first, second) = box.Halves();
            open.Push(first);
            open.Push(second);
        }
    }

    /// <summary>The target.</summary>
    public Lab Center { get; }

    /// <summary>The CIEDE2000 difference within which every colour is held.</summary>
    public double Radius { get; }

    /// <summary>The boxes.</summary>
    public IReadOnlyList<LabBox> Boxes => _boxes;

    /// <summary>All values that x·X + y·Y + z·Z takes in the neighbourhood, and maybe some more; empty (low above high) where no surface colour is near.</summary>
    /// <param name="x">Factor of X.</param>
    /// <param name="y">Factor of Y.</param>
    /// <param name="z">Factor of Z.</param>
    /// <param name="white">The white that L*a*b* refer to.</param>
    public Interval Reach(double x, double y, double z, Xyz white)
    {
        var (low, high) = (double.PositiveInfinity, double.NegativeInfinity);
        foreach (var box in _boxes)
        {
            low = Math.Min(low, -Highest(-x, -y, -z, white, box));
            high = Math.Max(high, Highest(x, y, z, white, box));
        }

        return new(low, high);
    }

    // X grows with L* and a*, Y with L*, Z with L* and against b*: a* and b* go to the end that the factors ask for, and along L* the
    // sum lies no further above its chord than its curvature allows. The cube f³ and its tangent curve by at most 6f, f at most about 1.
    private static double Highest(double x, double y, double z, Xyz white, in LabBox box)
    {
        var a = x >= 0 ? box.A.High : box.A.Low;
        var b = z >= 0 ? box.B.Low : box.B.High;
        double At(double l)
        {
            var color = new Lab(l, a, b).ToXyz(white);
            return x * color.X + y * color.Y + z * color.Z;
        }

        var f = Math.Max(0.2, (box.L.High + 16) / 116 + Math.Max(Math.Abs(a) / 500, Math.Abs(b) / 200));
        var curvature = 6 * f / (116.0 * 116.0) * (Math.Abs(x) * white.X + Math.Abs(y) * white.Y + Math.Abs(z) * white.Z);
        return Math.Max(At(box.L.Low), At(box.L.High)) + curvature * box.L.Width * box.L.Width / 8;
    }

    // |dL'| ≤ r·SL, and SL grows with the distance of the mean lightness from 50: 1.75 between 0 and 100, more for a target beyond. For the chromatic part c² + h² - 1.74|ch| ≥ c²/4, so |dC'| ≤ 2r·SC and |dH'| ≤ 2r·SC, with
    // SC = 1 + 0.0225(C1' + C2'); that bounds C2' itself for small r.
    private static LabBox? StartBox(Lab center, double radius)
    {
        var all = LabBox.AllSurfaces;
        var around = 1e12;
        if (radius < 10)
        {
            var chroma = 1.5 * center.Chroma;
            var other = (chroma * (1 + 0.045 * radius) + 2 * radius) / (1 - 0.045 * radius);
            around = 2.84 * radius * (1 + 0.0225 * (chroma + other)) + 1e-6;
        }

        var off = new Interval((all.L.Low + center.L) / 2 - 50, (all.L.High + center.L) / 2 - 50).Magnitude;
        var l = Meet(all.L, center.L, (1 + 0.015 * off * off / Math.Sqrt(20 + off * off)) * radius + 1e-6);
        var a = Meet(all.A, center.A, around);
        var b = Meet(all.B, center.B, around);
        return l.Width >= 0 && a.Width >= 0 && b.Width >= 0 ? new LabBox(l, a, b) : null;
    }

    private static Interval Meet(Interval all, double center, double around) => new(Math.Max(all.Low, center - around), Math.Min(all.High, center + around));

    // A unit of difference is longer in CIELAB away from neutral.
    private static double Scale(in LabBox box) => 1 + 0.02 * box.Chroma.Low;
}
