using CsCheck;

namespace MixEngine.Colorimetry.Tests;

public class LabTests
{
    [Fact]
    public void Has_the_values_of_public_calculators()
    {
        foreach (var row in PublishedTable.Load("srgb-lab-calculators.csv").Rows.Where(row => row.Text("conversion").Contains("->Lab")))
        {
            var white = row.Text("conversion").Contains("D65") ? new Xyz(95.047, 100, 108.883) : new Xyz(96.422, 100, 82.521);
            var lab = Lab.FromXyz(new Xyz(row["in0"], row["in1"], row["in2"]), white);

            // Printed to four decimals; the calculator of one row rounds its XYZ first, which is worth 7e-4 in a dark blue.
            var tolerance = row.Text("in0") == "2.61219" ? 7e-4 : 0.00005;
            Arbitrary.AssertNear(new Lab(row["out0"], row["out1"], row["out2"]), lab, tolerance);
        }
    }

    [Fact]
    public void Has_the_values_of_a_general_library()
    {
        foreach (var row in PublishedTable.Load("xyz-lab-library.csv").Rows)
        {
            var white = new XyY(row["white_x"], row["white_y"], 100).ToXyz();
            var lab = Lab.FromXyz(new Xyz(100 * row["X"], 100 * row["Y"], 100 * row["Z"]), white);
            Arbitrary.AssertNear(new Lab(row["L"], row["a"], row["b"]), lab, 5e-9);
        }
    }

    [Fact]
    public void Many_at_once_are_each_what_it_is_alone() =>
        Gen.Select(Gen.Double[-0.1, 1.3], Gen.Double[0, 1e-2], Gen.Double[0, 1e-12]).Select(t => new Xyz(95 * t.Item1, 100 * t.Item2, 108 * t.Item3)).Array[0, 11].Sample((Xyz[] some) =>
        {
            // Light, dark, black, and on either side of where the cube root begins.
            var white = LinearSrgb.StandardWhite;
            Xyz[] colors = [.. some, white, new(0, 0, 0), new(white.X * 0.0088564, 0.88565, white.Z), new(1e-300, -3, 1e6)];
            var labs = new Lab[colors.Length];
            Lab.FromXyz(colors, white, labs);
            for (var i = 0; i < colors.Length; i++)
            {
                var alone = Lab.FromXyz(colors[i], white);
                Arbitrary.AssertNear(alone, labs[i], 1e-12 * (1 + Math.Abs(alone.L) + Math.Abs(alone.A) + Math.Abs(alone.B)));
            }

            Assert.Equal(new Lab(100, 0, 0), labs[some.Length]);
        });

    [Fact]
    public void Many_need_as_many_places() =>
        Assert.Contains("places", Assert.Throws<ArgumentException>(() => Lab.FromXyz([new(1, 2, 3), new(3, 2, 1)], LinearSrgb.StandardWhite, new Lab[1])).Message);

    [Fact]
    public void Survives_the_way_through_XYZ_and_LCh() =>
        Gen.Select(Arbitrary.Lab, Arbitrary.View).Sample((lab, view) =>
        {
            Arbitrary.AssertNear(lab, Lab.FromXyz(lab.ToXyz(Arbitrary.White(view)), Arbitrary.White(view)), 1e-9);
            Arbitrary.AssertNear(lab, lab.ToLCh().ToLab(), lab.HueDegrees is null ? Lab.SmallestChroma : 1e-9);
        });

    [Fact]
    public void Chromaticity_survives_the_way_through_XYZ()
    {
        Gen.Select(Arbitrary.View, Arbitrary.Reflectance).Sample((view, reflectance) =>
        {
            var weights = TristimulusWeights.For(view);
            var xyz = weights.ToXyz(reflectance);
            Arbitrary.AssertNear(xyz, XyY.FromXyz(xyz, weights.White).ToXyz(), 1e-9);
        });
        var black = XyY.FromXyz(new Xyz(0, 0, 0), LinearSrgb.StandardWhite);
        Assert.Equal(0.3127, black.ChromaX, 1e-12);
        Assert.Equal(0.3290, black.ChromaY, 1e-12);
        Assert.Equal(0, black.Y);
    }

    /// <summary>A ramp through the neutrals, from a public fault report: their hue is absent, never NaN and never noise.</summary>
    [Theory]
    [InlineData("#000000", false)]
    [InlineData("#808080", false)]
    [InlineData("#ffffff", false)]
    [InlineData("#c03020", true)]
    public void A_neutral_has_no_hue(string hex, bool hasHue)
    {
        var color = HexColor.Parse(hex);
        var white = Arbitrary.White(ViewingCondition.Default);
        Assert.Equal(hasHue, color.ToLab().HueDegrees is not null);
        Assert.Equal(hasHue, color.ToLab().ToLCh().HueDegrees is not null);
        Assert.Equal(hasHue, OkLab.FromXyz(color.ToXyz(), white).HueDegrees is not null);
        Assert.Equal(hasHue, OkLab.FromXyz(color.ToXyz(), white).ToOkLCh().HueDegrees is not null);
    }

    [Fact]
    public void Hue_is_an_angle_from_0_to_below_360() =>
        Arbitrary.Lab.Where(lab => lab.Chroma >= Lab.SmallestChroma).Sample(lab => Assert.True(lab.HueDegrees is >= 0 and < 360));

    [Fact]
    public void A_hue_just_below_zero_does_not_become_360() =>
        Assert.Equal(0, new Lab(50, 10, -1e-18).HueDegrees);

    [Theory]
    [InlineData(0, 0, 0)]
    [InlineData(-1, -0.001, -2)]
    public void Black_and_slightly_negative_values_are_defined(double x, double y, double z)
    {
        var lab = Lab.FromXyz(new Xyz(x, y, z), Arbitrary.White(ViewingCondition.Default));
        Assert.True(double.IsFinite(lab.L) && double.IsFinite(lab.A) && double.IsFinite(lab.B));
    }
}
