using CsCheck;
using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests.Matching;

/// <summary>The enclosure must hold every colour of the neighbourhood: a colour left out would be a wrong proof.</summary>
public class NeighbourhoodTests
{
    // Colours of all kinds, the trouble-makers included: neutral, nearly neutral, blue (where CIEDE2000 is tilted), very dark, very vivid,
    // and targets that no surface can have.
    private static readonly Gen<Lab> Color = Gen.OneOf(
        Gen.Select(Gen.Double[0, 100], Gen.Double[-120, 120], Gen.Double[-120, 120]),
        Gen.Select(Gen.Double[0, 100], Gen.Double[-1, 1], Gen.Double[-1, 1]),
        Gen.Select(Gen.Double[0, 100], Gen.Const(0.0), Gen.Const(0.0)),
        Gen.Select(Gen.Double[0, 60], Gen.Double[-10, 80], Gen.Double[-120, -20]),
        Gen.Select(Gen.Double[0, 3], Gen.Double[-5, 5], Gen.Double[-5, 5]),
        Gen.Select(Gen.Double[-30, 160], Gen.Double[-200, 200], Gen.Double[-200, 200])).Select((l, a, b) => new Lab(l, a, b));

    private static readonly Gen<Interval> Side = Gen.Select(Gen.Double[-1, 1], Gen.OneOf(Gen.Double[0, 0.1], Gen.Double[0, 5], Gen.Double[0, 60]))
        .Select((shift, width) => new Interval(shift * width - width, shift * width + width));

    [Fact]
    public void The_lower_bound_is_below_the_difference_of_every_colour_of_the_box() =>
        Gen.Select(Color, Color, Side, Side, Side, Gen.Double[0, 1].Array[3].Array[20]).Sample((target, middle, l, a, b, points) =>
        {
            var box = new LabBox(l + middle.L, a + middle.A, b + middle.B);
            var bound = DeltaE2000Bound.Lower(target, box);
            foreach (var p in points)
            {
                var color = new Lab(At(box.L, p[0]), At(box.A, p[1]), At(box.B, p[2]));
                Assert.True(bound <= DeltaE2000.Between(target, color), $"{target} to {color}: {DeltaE2000.Between(target, color)} is below the bound {bound}");
            }
        }, iter: 20_000);

    [Fact]
    public void The_lower_bound_of_a_small_box_is_near_the_difference() =>
        Gen.Select(Color, Color, Gen.Double[0.5, 0.98]).Sample((target, there, near) =>
        {
            // Half the way or more to the target, so that blue's tilt and opposite hues play no part.
            var color = new Lab(there.L + near * (target.L - there.L), there.A + near * (target.A - there.A), there.B + near * (target.B - there.B));
            var box = new LabBox(new(color.L, color.L), new(color.A, color.A), new(color.B, color.B));
            var difference = DeltaE2000.Between(target, color);
            Assert.True(difference > 15 || DeltaE2000Bound.Lower(target, box) >= 0.3 * difference - 1e-6);
        }, iter: 5_000);

    [Fact]
    public void Every_colour_within_the_radius_is_held() =>
        Gen.Select(Color, Gen.OneOf(Gen.Double[0.01, 1], Gen.Double[1, 12], Gen.Double[12, 60]), Gen.Double[-1, 1].Array[3].Array[30]).Sample((target, radius, directions) =>
        {
            var neighbourhood = new Neighbourhood(target, radius);
            var white = TristimulusWeights.For(ViewingCondition.Default).White;
            var (x, y) = (neighbourhood.Reach(1, 0, 0, white), neighbourhood.Reach(0, 1, 0, white));
            var (red, blue) = (neighbourhood.Reach(1, -0.9, 0, white), neighbourhood.Reach(-0.1, 1.2, -1, white));
            foreach (var direction in directions)
            {
                if (EdgeColor(target, radius, direction, white) is not { } color)
                {
                    continue;
                }

                Assert.Contains(neighbourhood.Boxes, box => Holds(box.L, color.L) && Holds(box.A, color.A) && Holds(box.B, color.B));
                var xyz = color.ToXyz(white);
                Assert.True(Holds(x, xyz.X));
                Assert.True(Holds(y, xyz.Y));
                Assert.True(Holds(red, xyz.X - 0.9 * xyz.Y));
                Assert.True(Holds(blue, -0.1 * xyz.X + 1.2 * xyz.Y - xyz.Z));
            }
        }, iter: 300);

    [Fact]
    public void A_reach_is_not_much_wider_than_the_neighbourhood()
    {
        // For a mid grey, within 1 CIEDE2000, L* lies about 1 to either side.
        var white = TristimulusWeights.For(ViewingCondition.Default).White;
        var reach = new Neighbourhood(new Lab(50, 0, 0), 1).Reach(0, 1, 0, white);
        var (low, high) = (new Lab(49, 0, 0).ToXyz(white).Y, new Lab(51, 0, 0).ToXyz(white).Y);
        Assert.InRange(reach.Width, high - low, 1.5 * (high - low));
    }

    [Fact]
    public void Where_no_surface_colour_is_near_nothing_is_held() => Assert.Empty(new Neighbourhood(new Lab(160, 0, 0), 2).Boxes);

    private static double At(Interval interval, double share) => interval.Low + share * interval.Width;

    private static bool Holds(Interval interval, double value) => value >= interval.Low - 1e-9 && value <= interval.High + 1e-9;

    // The colour just inside the edge in a direction, by bisection; none where a surface cannot have it.
    private static Lab? EdgeColor(Lab target, double radius, double[] direction, Xyz white)
    {
        Lab Go(double by) => new(target.L + by * direction[0], target.A + by * direction[1], target.B + by * direction[2]);
        var (inside, outside) = (0.0, 400.0);
        for (var i = 0; i < 60; i++)
        {
            var middle = (inside + outside) / 2;
            (inside, outside) = DeltaE2000.Between(target, Go(middle)) <= radius ? (middle, outside) : (inside, middle);
        }

        var color = Go(inside);
        var xyz = color.ToXyz(white);
        return xyz.X >= 0 && xyz.Y >= 0 && xyz.Z >= 0 && xyz.X <= white.X && xyz.Y <= white.Y && xyz.Z <= white.Z ? color : null;
    }
}
