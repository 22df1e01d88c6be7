using CsCheck;

namespace MixEngine.Colorimetry.Tests;

public class DeltaE2000Tests
{
    [Fact]
    public void Reproduces_the_34_pairs_of_Sharma_2005()
    {
        var table = PublishedTable.Load("sharma2005-ciede2000.csv");
        Assert.Equal(34, table.Rows.Count);
        foreach (var row in table.Rows)
        {
            var first = new Lab(row["L1"], row["a1"], row["b1"]);
            var second = new Lab(row["L2"], row["a2"], row["b2"]);
            Assert.Equal(row["dE00"], DeltaE2000.Between(first, second), table.HalfDigit("dE00"));
            Assert.Equal(row["dE00"], DeltaE2000.Between(second, first), table.HalfDigit("dE00"));
        }
    }

    /// <summary>
    /// Opposite hues on either side of 0 degrees: pair 9 of the published table, and the red and the blue of a screen (from a public fault report).
    /// The reported 52.8814 belongs to a D65 of (0.95047, 1, 1.08883) built into the matrix; with the (0.3127, 0.3290) of the standard the same
    /// two codes differ by 52.8782, as they do in the peer libraries.
    /// </summary>
    [Fact]
    public void Hues_that_straddle_zero_are_near_each_other()
    {
        Assert.Equal(7.1792, DeltaE2000.Between(new Lab(50, 2.49, -0.001), new Lab(50, -2.49, 0.0009)), 0.00005);
        var (red, blue) = (new Lab(53.240794, 80.092460, 67.203197), new Lab(32.297011, 79.187520, -107.860162));
        Assert.Equal(52.8814, DeltaE2000.Between(red, blue), 0.00005);
        Assert.Equal(52.8814, DeltaE2000.Between(HexColor.Parse("#ff0000").ToLab(), HexColor.Parse("#0000ff").ToLab()), 0.005);
    }

    /// <summary>
    /// The published rule for the mean hue subtracts half a turn when the hues sum to 360 or more; some reports ask to always add it.
    /// The cosines of the weights do not see a full turn, the distance to the blue does.
    /// </summary>
    [Fact]
    public void The_mean_hue_follows_the_published_rule()
    {
        // Hues 311 and 45 lie 266 apart and sum to 356: the mean is 178 + 180 = 358.
        var (first, second) = (new Lab(51.018, 118.681, -118.268), new Lab(46.578, 12.930, 12.885));
        Assert.Equal(DeltaE2000.Between(first, second), ByThePaper(first, second), 1e-10);

        // Hues 350 and 20 sum to 370: the mean is 5, not 365.
        var (third, fourth) = (new Lab(50, 59.1, -10.4), new Lab(50, 56.4, 20.5));
        Assert.Equal(DeltaE2000.Between(third, fourth), ByThePaper(third, fourth), 1e-10);
    }

    [Fact]
    public void Channels_from_0_to_255_are_codes_not_shares() =>
        Assert.Equal(7.434, DeltaE2000.Between(new HexColor(7, 6, 4).ToLab(), new HexColor(35, 35, 35).ToLab()), 0.0005);

    [Fact]
    public void Is_symmetric_and_zero_only_for_the_same_colour() =>
        Gen.Select(Arbitrary.Lab, Arbitrary.Lab).Sample((first, second) =>
        {
            var difference = DeltaE2000.Between(first, second);
            Assert.Equal(difference, DeltaE2000.Between(second, first), 1e-9);
            Assert.True(double.IsFinite(difference) && difference >= 0);
            Assert.Equal(0, DeltaE2000.Between(first, first));
            Assert.True(first == second || difference > 0);
        });

    [Fact]
    public void Is_the_formula_of_the_paper_written_another_way() =>
        Gen.Select(Arbitrary.Lab, Arbitrary.Lab).Where((first, second) => !AreOpposite(first, second)).Sample((first, second) =>
            Assert.Equal(ByThePaper(first, second), DeltaE2000.Between(first, second), 1e-9));

    [Fact]
    public void Of_a_neutral_and_any_colour_is_defined() =>
        Gen.Select(Gen.Double[0, 100], Arbitrary.Lab).Sample((l, color) =>
            Assert.True(double.IsFinite(DeltaE2000.Between(new Lab(l, 0, 0), color))));

    // Within rounding of opposite hues, subtracted angles fall on either side of 180 degrees by chance, and the formula jumps there.
    private static bool AreOpposite(Lab first, Lab second) =>
        Math.Abs(first.A * second.B - second.A * first.B) < 1e-9 * first.Chroma * second.Chroma + 1e-12;

    /// <summary>Sharma 2005, equations 2 to 22, word for word and with subtracted angles.</summary>
    private static double ByThePaper(Lab one, Lab two)
    {
        double Rad(double degrees) => degrees * Math.PI / 180;
        double Deg(double a, double b) => a == 0 && b == 0 ? 0 : (Math.Atan2(b, a) / Math.PI * 180 + 360) % 360;
        var cBar = (Math.Sqrt(one.A * one.A + one.B * one.B) + Math.Sqrt(two.A * two.A + two.B * two.B)) / 2;
        var g = 0.5 * (1 - Math.Sqrt(Math.Pow(cBar, 7) / (Math.Pow(cBar, 7) + Math.Pow(25, 7))));
        var (a1, a2) = (one.A * (1 + g), two.A * (1 + g));
        var (c1, c2) = (Math.Sqrt(a1 * a1 + one.B * one.B), Math.Sqrt(a2 * a2 + two.B * two.B));
        var (h1, h2) = (Deg(a1, one.B), Deg(a2, two.B));
        var dh = c1 * c2 == 0 ? 0 : Math.Abs(h2 - h1) <= 180 ? h2 - h1 : h2 - h1 > 180 ? h2 - h1 - 360 : h2 - h1 + 360;
        var hBar = c1 * c2 == 0 ? h1 + h2
            : Math.Abs(h1 - h2) <= 180 ? (h1 + h2) / 2
            : h1 + h2 < 360 ? (h1 + h2 + 360) / 2
            : (h1 + h2 - 360) / 2;
        var (lBar, cBarP) = ((one.L + two.L) / 2, (c1 + c2) / 2);
        var t = 1 - 0.17 * Math.Cos(Rad(hBar - 30)) + 0.24 * Math.Cos(Rad(2 * hBar)) + 0.32 * Math.Cos(Rad(3 * hBar + 6)) - 0.2 * Math.Cos(Rad(4 * hBar - 63));
        var dTheta = 30 * Math.Exp(-Math.Pow((hBar - 275) / 25, 2));
        var rC = 2 * Math.Sqrt(Math.Pow(cBarP, 7) / (Math.Pow(cBarP, 7) + Math.Pow(25, 7)));
        var sL = 1 + 0.015 * Math.Pow(lBar - 50, 2) / Math.Sqrt(20 + Math.Pow(lBar - 50, 2));
        var (sC, sH) = (1 + 0.045 * cBarP, 1 + 0.015 * cBarP * t);
        var rT = -Math.Sin(Rad(2 * dTheta)) * rC;
        var (l, c, h) = ((two.L - one.L) / sL, (c2 - c1) / sC, 2 * Math.Sqrt(c1 * c2) * Math.Sin(Rad(dh / 2)) / sH);
        return Math.Sqrt(l * l + c * c + h * h + rT * c * h);
    }

    [Fact]
    public void The_metric_is_what_the_difference_becomes_for_small_steps() => Arbitrary.Lab.Select(Gen.Double[-1, 1], Gen.Double[-1, 1], Gen.Double[-1, 1]).Sample((lab, l, a, b) =>
    {
        // Half a step to either side, so that the mean colour is the colour itself.
        const double step = 1e-4;
        var (from, to) = (new Lab(lab.L - step * l / 2, lab.A - step * a / 2, lab.B - step * b / 2), new Lab(lab.L + step * l / 2, lab.A + step * a / 2, lab.B + step * b / 2));
        var measured = Math.Pow(DeltaE2000.Between(from, to) / step, 2);
        var (ll, aa, bb, ab) = DeltaE2000.MetricAt(lab);
        var stated = ll * l * l + aa * a * a + bb * b * b + 2 * ab * a * b;
        Assert.Equal(measured, stated, 1e-4 + 1e-3 * measured);
    });

    [Fact]
    public void The_metric_on_the_neutral_axis_has_no_hue()
    {
        var (_, aa, bb, ab) = DeltaE2000.MetricAt(new Lab(50, 0, 0));
        Assert.Equal(2.25, aa, 1e-12);
        Assert.Equal(1, bb, 1e-12);
        Assert.Equal(0, ab, 1e-12);
    }
}
