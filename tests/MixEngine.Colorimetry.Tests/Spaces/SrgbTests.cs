using CsCheck;

namespace MixEngine.Colorimetry.Tests;

public class SrgbTests
{
    [Fact]
    public void Has_the_matrices_and_the_curve_of_the_standard()
    {
        var rows = PublishedTable.Load("iec61966-srgb.csv").Rows.ToDictionary(row => row.Text("item"));
        var white = LinearSrgb.StandardWhite;
        LinearSrgb[] primaries = [new(1, 0, 0), new(0, 1, 0), new(0, 0, 1)];
        Xyz[] stimuli = [new(100, 0, 0), new(0, 100, 0), new(0, 0, 100)];
        for (var i = 0; i < 3; i++)
        {
            // A column of the matrix is a primary; the standard prints four decimals.
            var column = $"v{i}";
            var xyz = primaries[i].ToXyz(white);
            Assert.Equal(rows["matrix_srgb_to_xyz_row0"][column], xyz.X / 100, 0.00005);
            Assert.Equal(rows["matrix_srgb_to_xyz_row1"][column], xyz.Y / 100, 0.00005);
            Assert.Equal(rows["matrix_srgb_to_xyz_row2"][column], xyz.Z / 100, 0.00005);

            // The standard inverts its own rounded matrix, which costs up to two units of the fourth decimal.
            var rgb = LinearSrgb.FromXyz(stimuli[i], white);
            Assert.Equal(rows["matrix_xyz_to_srgb_row0"][column], rgb.R, 0.0004);
            Assert.Equal(rows["matrix_xyz_to_srgb_row1"][column], rgb.G, 0.0004);
            Assert.Equal(rows["matrix_xyz_to_srgb_row2"][column], rgb.B, 0.0004);
        }

        Assert.Equal(rows["encode_linear_0.18"]["v0"], new LinearSrgb(0.18, 0, 0).ToSrgb().R, 1e-14);
        Assert.Equal(rows["decode_0.5"]["v0"], new Srgb(0.5, 0, 0).ToLinear().R, 5e-13);
        Assert.Equal(rows["decode_128/255"]["v0"], new Srgb(128 / 255.0, 0, 0).ToLinear().R, 5e-13);
        Assert.Equal(rows["decode_0.04045"]["v0"], new Srgb(0.04045, 0, 0).ToLinear().R, 5e-13);
    }

    [Fact]
    public void Has_the_values_of_public_calculators()
    {
        foreach (var row in PublishedTable.Load("srgb-lab-calculators.csv").Rows)
        {
            if (row.Text("conversion") == "sRGB->linear")
            {
                var linear = new Srgb(row["in0"], row["in1"], row["in2"]).ToLinear();
                Assert.Equal((row["out0"], row["out1"], row["out2"]), (linear.R, linear.G, linear.B), Within(1e-14));
            }
            else if (row.Text("conversion") == "linear sRGB->XYZ100")
            {
                // The calculator's matrix is rounded and made for a D65 of (0.95047, 1, 1.08883): half a digit of it times the sum of the channels.
                var tolerance = 0.005 * (row["in0"] + row["in1"] + row["in2"]);
                var xyz = new LinearSrgb(row["in0"], row["in1"], row["in2"]).ToXyz(new Xyz(95.047, 100, 108.883));
                Arbitrary.AssertNear(new Xyz(row["out0"], row["out1"], row["out2"]), xyz, tolerance);
            }
        }
    }

    [Fact]
    public void Survives_the_way_through_every_space_also_outside_the_gamut() =>
        Arbitrary.LinearSrgb.Sample(rgb =>
        {
            var white = Arbitrary.White(ViewingCondition.Default);
            var expected = (rgb.R, rgb.G, rgb.B);
            LinearSrgb[] ways =
            [
                rgb.ToSrgb().ToLinear(),
                LinearSrgb.FromXyz(rgb.ToXyz(white), white),
                OkLab.FromLinearSrgb(rgb).ToLinearSrgb(),
                LinearSrgb.FromXyz(OkLab.FromXyz(rgb.ToXyz(white), white).ToXyz(white), white),
            ];

            // The curve's published constants meet to 1e-8 only, hence the first way's tolerance.
            Assert.All(ways, way => Assert.Equal(expected, (way.R, way.G, way.B), Within(1e-7)));
        });

    [Fact]
    public void A_code_survives_the_way_through_XYZ_and_the_screen() =>
        Arbitrary.Hex.Sample(hex =>
        {
            Assert.Equal(new DisplayColor(hex, true), DisplayColor.From(hex.ToXyz(), Arbitrary.White(ViewingCondition.Default)));
            Assert.Equal(hex, HexColor.Parse(hex.ToString()));
        });

    [Fact]
    public void White_is_exactly_white()
    {
        Arbitrary.AssertNear(new Lab(100, 0, 0), HexColor.Parse("#ffffff").ToLab(), 1e-12);
        Arbitrary.AssertNear(Arbitrary.White(ViewingCondition.Default), HexColor.Parse("#ffffff").ToXyz(), 1e-12);
    }

    [Theory]
    [InlineData("#ccc", "#cccccc")]
    [InlineData("ccc", "#cccccc")]
    [InlineData("#CCCCCC", "#cccccc")]
    [InlineData("012345", "#012345")]
    [InlineData("  #4E0012 ", "#4e0012")]
    public void A_code_may_be_short_and_without_its_sign(string text, string expected) =>
        Assert.Equal(expected, HexColor.Parse(text).ToString());

    [Theory]
    [InlineData("#12")]
    [InlineData("#12345")]
    [InlineData("#ggg")]
    [InlineData("#ggg123")]
    [InlineData("")]
    [InlineData("#")]
    [InlineData("##ccc")]
    [InlineData("+12345")]
    [InlineData("#1 2345")]
    [InlineData("#1234567")]
    [InlineData("#12345678")]
    [InlineData("１２３")]
    public void Anything_else_is_an_error_never_black(string text)
    {
        Assert.False(HexColor.TryParse(text, out _));
        Assert.Contains($"'{text}'", Assert.Throws<FormatException>(() => HexColor.Parse(text)).Message);
    }

    private static EqualityComparer<(double, double, double)> Within(double tolerance) =>
        EqualityComparer<(double, double, double)>.Create((a, b) =>
            Math.Abs(a.Item1 - b.Item1) <= tolerance && Math.Abs(a.Item2 - b.Item2) <= tolerance && Math.Abs(a.Item3 - b.Item3) <= tolerance);
}
