using CsCheck;

namespace MixEngine.Colorimetry.Tests;

public class ReflectanceFromColorTests
{
    [Fact]
    public void Reproduces_every_colour_that_a_surface_can_have() =>
        Gen.Select(Arbitrary.View, Arbitrary.Reflectance).Sample(
            (view, surface) =>
            {
                var target = TristimulusWeights.For(view).ToXyz(surface);
                var answer = ReflectanceFromColor.Reconstruct(target, view);
                Assert.True(answer.Exact, $"{target} under {view} is missed by {answer.DeltaE00} dE00");
                Assert.All(answer.Reflectance.Values.ToArray(), value => Assert.InRange(value, 1e-7, 1 - 1e-7));

                // Flat surfaces near black and white stay at the limits of R, up to 1e-4 from their goal; all others get there.
                Arbitrary.AssertNear(target, answer.Achieved, 1e-8);
                Assert.Equal(answer.Achieved, TristimulusWeights.For(view).ToXyz(answer.Reflectance));
            },
            iter: 1000);

    [Fact]
    public void Reproduces_every_colour_of_a_screen() =>
        Arbitrary.Hex.Sample(
            hex =>
            {
                var answer = ReflectanceFromColor.Reconstruct(hex.ToXyz(), ViewingCondition.Default);
                Assert.True(answer.Exact);
                Assert.Equal(hex, DisplayColor.From(answer.Achieved, Arbitrary.White(ViewingCondition.Default)).Hex);
            },
            iter: 1000);

    [Fact]
    public void Has_no_more_slope_than_any_surface_of_the_same_colour() =>
        Gen.Select(Arbitrary.View, Arbitrary.RaggedReflectance).Sample(
            (view, surface) =>
            {
                var clipped = surface.Select(value => Math.Clamp(value, 1e-5, 1 - 1e-5)).ToArray();
                var answer = ReflectanceFromColor.Reconstruct(TristimulusWeights.For(view).ToXyz(clipped), view);
                Assert.True(Slope(answer.Reflectance.Values) <= Slope(clipped) + 1e-9);
            },
            iter: 500);

    [Fact]
    public void A_colour_beyond_all_surfaces_is_answered_by_the_last_one_on_the_way_from_its_grey() =>
        Gen.Select(Arbitrary.View, Gen.Double[5, 95], Gen.Double[-60, 120], Gen.Double[-60, 120]).Where((_, _, dx, dz) => Math.Abs(dx) + Math.Abs(dz) > 1).Sample(
            (view, y, dx, dz) =>
            {
                var weights = TristimulusWeights.For(view);
                var grey = Xyz.Neutral(y, weights.White);
                Xyz Along(double share) => new(grey.X + share * dx, y, grey.Z + share * dz);
                var answer = ReflectanceFromColor.Reconstruct(Along(1), view);
                var farthest = FarthestShare(grey, dx, dz, weights);

                // The answer lies on the straight way from the grey to the target, no further than surfaces go. Keeping R within
                // [1e-6, 1 - 1e-6] may move it off by up to 1e-6 of the white.
                var share = ((answer.Achieved.X - grey.X) * dx + (answer.Achieved.Z - grey.Z) * dz) / (dx * dx + dz * dz);
                Arbitrary.AssertNear(Along(share), answer.Achieved, 2e-4);
                Assert.InRange(share, -1e-4, Math.Min(1, farthest) + 1e-4);

                // It stops where the curve has become a step between 0 and 1, at most 6 % of the way before the surfaces end
                // (seen: 4.2 % near white under the lines of FL11, mostly below 1.5 % under others).
                Assert.True(share > 0.94 * Math.Min(1, farthest), $"stopped at {share:0.0000} of {farthest:0.0000}");
                Assert.Equal(answer.Exact, answer.DeltaE00 <= 0.001);
                Assert.True(answer.Exact || farthest < 1 / 0.94);
            },
            iter: 200);

    /// <summary>Twice or three hundred times as far out in the same direction, the answer is the same.</summary>
    [Fact]
    public void How_far_outside_a_colour_lies_does_not_change_its_answer()
    {
        var grey = Xyz.Neutral(30, Arbitrary.White(ViewingCondition.Default));
        var answers = new[] { 100.0, 200.0, 30_000.0 }.Select(far =>
            ReflectanceFromColor.Reconstruct(grey with { X = grey.X + far }, ViewingCondition.Default)).ToArray();
        Assert.All(answers, answer => Assert.False(answer.Exact));
        Assert.All(answers, answer => Assert.Equal(answers[0].Achieved.X, answer.Achieved.X, 0.05));
    }

    [Theory]
    [InlineData(0, 0, 0)]
    [InlineData(-5, 20, 30)]
    [InlineData(200, 100, 50)]
    [InlineData(95, 110, 108)]
    [InlineData(50, 50, 0)]
    [InlineData(1e9, -1e9, 1e9)]
    [InlineData(double.MaxValue, double.MaxValue, double.MaxValue)]
    public void There_is_an_answer_for_any_numbers(double x, double y, double z)
    {
        var answer = ReflectanceFromColor.Reconstruct(new Xyz(x, y, z), ViewingCondition.Default);
        Assert.True(answer.Achieved.IsFinite);
        Assert.False(double.IsNaN(answer.DeltaE00));
    }

    [Fact]
    public void Black_white_and_grey_are_flat()
    {
        foreach (var hex in new[] { "#000000", "#808080", "#ffffff" })
        {
            var answer = ReflectanceFromColor.Reconstruct(HexColor.Parse(hex).ToXyz(), ViewingCondition.Default);
            Assert.True(answer.Exact);
            Assert.Equal(answer.Reflectance[0], answer.Reflectance[35], 1e-9);
        }
    }

    [Fact]
    public void A_target_of_no_numbers_is_refused() =>
        Assert.Contains("NaN", Assert.Throws<ArgumentException>(
            () => ReflectanceFromColor.Reconstruct(new Xyz(double.NaN, 1, 1), ViewingCondition.Default)).Message);

    /// <summary>A computed table, made from the same published equations with weights that end at 730 nm and are rounded.</summary>
    [Fact]
    public void Agrees_with_curves_computed_independently_from_Burns_2020()
    {
        var worst = 0.0;
        foreach (var row in PublishedTable.Load("burns2020-minimum-slope.csv").Rows)
        {
            var hex = new HexColor((byte)row["R8"], (byte)row["G8"], (byte)row["B8"]);
            var curve = ReflectanceFromColor.Reconstruct(hex.ToXyz(), ViewingCondition.Default).Reflectance;
            for (var band = 0; band < SpectralGrid.Bands; band++)
            {
                worst = Math.Max(worst, Math.Abs(row[$"{SpectralGrid.WavelengthNm(band)}"] - curve[band]));
            }
        }

        TestContext.Current.TestOutputHelper!.WriteLine($"largest difference in any band: {worst:0.0000}");
        Assert.InRange(worst, 0, 0.01);
    }

    private static double Slope(ReadOnlySpan<double> reflectance)
    {
        var sum = 0.0;
        for (var i = 1; i < reflectance.Length; i++)
        {
            var step = Math.Log(reflectance[i] / (1 - reflectance[i])) - Math.Log(reflectance[i - 1] / (1 - reflectance[i - 1]));
            sum += step * step;
        }

        return sum;
    }

    /// <summary>
    /// How far surfaces go on the way from a grey in the direction (dx, 0, dz). No surface has more along any direction d than the sum of the
    /// positive parts of d . (weights of X, Y, Z); the least of these bounds, over all d with d . (dx, 0, dz) = 1, is reached (linear programming
    /// duality). The bound is convex in the two free parts of d, so two nested golden sections find it.
    /// </summary>
    private static double FarthestShare(Xyz grey, double dx, double dz, TristimulusWeights weights)
    {
        var length = dx * dx + dz * dz;
        double Bound(double p, double q)
        {
            var (x, y, z) = (dx / length + q * dz, p, dz / length - q * dx);
            var most = 0.0;
            for (var band = 0; band < SpectralGrid.Bands; band++)
            {
                most += Math.Max(0, x * weights.X[band] + y * weights.Y[band] + z * weights.Z[band]);
            }

            return most - (x * grey.X + y * grey.Y + z * grey.Z);
        }

        var reach = 10 / Math.Sqrt(length);
        return Least(p => Least(q => Bound(p, q), reach / Math.Sqrt(length)), reach);
    }

    private static double Least(Func<double, double> convex, double reach)
    {
        var golden = (Math.Sqrt(5) - 1) / 2;
        var (low, high) = (-reach, reach);
        var (a, b) = (high - golden * (high - low), low + golden * (high - low));
        var (atA, atB) = (convex(a), convex(b));
        for (var i = 0; i < 45; i++)
        {
            if (atA < atB)
            {
                (high, b, atB) = (b, a, atA);
                a = high - golden * (high - low);
                atA = convex(a);
            }
            else
            {
                (low, a, atA) = (a, b, atB);
                b = low + golden * (high - low);
                atB = convex(b);
            }
        }

        return Math.Min(atA, atB);
    }
}
