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

    /// <summary>
    /// Whatever lies beyond a plane that touches the object-colour solid is outside of it: along any direction d no surface
    /// can have more than the sum of the positive parts of d . (X, Y, Z weights).
    /// </summary>
    [Fact]
    public void A_colour_beyond_all_surfaces_is_answered_by_the_nearest_towards_its_grey() =>
        Gen.Select(Arbitrary.View, Gen.Double[5, 95], Gen.Double[-60, 120], Gen.Double[-60, 120]).Where((_, _, dx, dz) => Math.Abs(dx) + Math.Abs(dz) > 1).Sample(
            (view, y, dx, dz) =>
            {
                var weights = TristimulusWeights.For(view);
                var grey = Xyz.Neutral(y, weights.White);
                var target = new Xyz(grey.X + dx, y, grey.Z + dz);
                var answer = ReflectanceFromColor.Reconstruct(target, view);
                Assert.True(answer.Achieved.IsFinite && double.IsFinite(answer.DeltaE00));
                if (IsSeparated(target, weights))
                {
                    Assert.False(answer.Exact);
                    Assert.True(answer.DeltaE00 > 0.001);
                }

                // The answer lies on the straight way from the grey to the target, and not beyond either.
                var length = dx * dx + dz * dz;
                var share = ((answer.Achieved.X - grey.X) * dx + (answer.Achieved.Z - grey.Z) * dz) / length;
                Assert.InRange(share, -1e-6, 1 + 1e-6);
                Arbitrary.AssertNear(new Xyz(grey.X + share * dx, y, grey.Z + share * dz), answer.Achieved, 1e-6);

                // It stops only where the surfaces end: a little further on that way is no colour of one.
                if (!answer.Exact)
                {
                    var beyond = share + 0.01;
                    Assert.True(IsSeparated(new Xyz(grey.X + beyond * dx, y, grey.Z + beyond * dz), weights), $"{target} under {view} stopped at {share:0.000}");
                }
            },
            iter: 150);

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

    // Looks for a touching plane with the colour on its far side, first in coarse directions, then around the best.
    private static bool IsSeparated(Xyz color, TristimulusWeights weights)
    {
        var random = new Random(1);
        var (best, bx, by, bz) = (double.NegativeInfinity, 0.0, 0.0, 0.0);
        for (var i = 0; i < 4000; i++)
        {
            var spread = i < 1500 ? 1 : Math.Pow(0.997, i - 1500);
            var (dx, dy, dz) = (bx + spread * (random.NextDouble() - 0.5), by + spread * (random.NextDouble() - 0.5), bz + spread * (random.NextDouble() - 0.5));
            if (i < 1500)
            {
                (dx, dy, dz) = (random.NextDouble() - 0.5, random.NextDouble() - 0.5, random.NextDouble() - 0.5);
            }

            var norm = Math.Sqrt(dx * dx + dy * dy + dz * dz);
            (dx, dy, dz) = (dx / norm, dy / norm, dz / norm);
            var excess = dx * color.X + dy * color.Y + dz * color.Z;
            for (var band = 0; band < SpectralGrid.Bands; band++)
            {
                excess -= Math.Max(0, dx * weights.X[band] + dy * weights.Y[band] + dz * weights.Z[band]);
            }

            if (excess > best)
            {
                (best, bx, by, bz) = (excess, dx, dy, dz);
            }
        }

        return best > 0;
    }
}
