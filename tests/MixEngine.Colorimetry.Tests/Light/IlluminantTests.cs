namespace MixEngine.Colorimetry.Tests;

public class IlluminantTests
{
    [Fact]
    public void The_twelve_published_lights_are_known_in_any_case()
    {
        string[] names = ["A", "D50", "D55", "D65", "D75", "FL2", "FL11", "LED-B1", "LED-B2", "LED-B3", "LED-B4", "LED-B5"];
        Assert.Equal(names, Illuminant.All.Select(light => light.Name));
        Assert.Same(Illuminant.D65, Illuminant.FromName(" d65 "));
    }

    [Fact]
    public void An_unknown_light_is_refused_with_the_known_ones()
    {
        var error = Assert.Throws<ArgumentException>(() => Illuminant.FromName("D66"));
        Assert.Contains("'D66'", error.Message);
        Assert.Contains("FL11", error.Message);
        Assert.False(Illuminant.TryFromName(null, out _));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(5)]
    public void A_table_given_as_a_measured_light_has_the_same_white(int stepNm)
    {
        // The published D65 along straight lines, as CIE 15 interpolates it.
        var table = PublishedTable.AllIn(typeof(Xyz).Assembly).Single(table => table.Name.EndsWith("illuminants-5nm.csv"));
        var (nm, power) = (table.Column("nm"), table.Column("D65"));
        double[] wavelengths = [.. Enumerable.Range(0, (780 - 300) / stepNm + 1).Select(i => 300.0 + i * stepNm)];
        double[] values = [.. wavelengths.Select(at =>
        {
            var left = Math.Min((int)((at - 300) / 5), nm.Length - 2);
            return power[left] + (at - nm[left]) / 5 * (power[left + 1] - power[left]);
        })];

        // Sharing 1 nm samples out rounds off the kinks of the table, which moves Z by 0.03: less than 0.02 dE00 for any colour.
        var light = Illuminant.FromSpectrum("bench lamp", wavelengths, values);
        Arbitrary.AssertNear(Arbitrary.White(ViewingCondition.Default), Arbitrary.White(new ViewingCondition(light, Observer.Degree2)), stepNm == 5 ? 1e-9 : 0.03);
    }

    [Fact]
    public void A_narrow_line_between_the_5_nm_samples_is_not_lost()
    {
        // A weak continuum and one line at 547 nm; the whole power of the line is 200 times one nm of continuum.
        double[] nm = [.. Enumerable.Range(380, 401).Select(value => (double)value)];
        double[] power = [.. nm.Select(value => value == 547 ? 201.0 : 1.0)];
        var light = Illuminant.FromSpectrum("line", nm, power);
        var flat = Illuminant.FromSpectrum("flat", nm, [.. nm.Select(_ => 1.0)]);
        var white = Arbitrary.White(new ViewingCondition(light, Observer.Degree2));

        // The equal-energy white has X = Y = Z; a green line makes it greener: Y rises against X and Z.
        Arbitrary.AssertNear(new Xyz(100, 100, 100), Arbitrary.White(new ViewingCondition(flat, Observer.Degree2)), 0.05);
        Assert.InRange(white.X, 30, 80);
        Assert.InRange(white.Z, 10, 40);
    }

    [Theory]
    [InlineData(new double[] { 380, 500 }, new double[] { 1, 1 }, "400 to 700")]
    [InlineData(new double[] { 380, 780 }, new double[] { 1 }, "1 values")]
    [InlineData(new double[] { 780, 380 }, new double[] { 1, 1 }, "increase")]
    [InlineData(new double[] { 380, 780 }, new double[] { 1, -1 }, "780 nm is -1")]
    [InlineData(new double[] { 380, 780 }, new double[] { double.NaN, 1 }, "380 nm is NaN")]
    [InlineData(new double[] { 380, 780 }, new double[] { 0, 0 }, "no power")]
    public void An_unusable_light_is_refused_with_the_reason(double[] nm, double[] power, string reason) =>
        Assert.Contains(reason, Assert.Throws<ArgumentException>(() => Illuminant.FromSpectrum("lamp", nm, power)).Message);

    [Theory]
    [InlineData(1e-300)]
    [InlineData(1e308)]
    public void The_unit_of_a_measured_light_does_not_matter(double unit)
    {
        double[] nm = [400, 500, 600, 700];
        double[] power = [0.2, 1, 0.7, 0.4];
        var white = TristimulusWeights.For(new ViewingCondition(Illuminant.FromSpectrum("lamp", nm, power), Observer.Degree2)).White;
        var scaled = TristimulusWeights.For(new ViewingCondition(Illuminant.FromSpectrum("lamp", nm, [.. power.Select(value => value * unit)]), Observer.Degree2)).White;
        Assert.Equal(white.X, scaled.X, 1e-9);
        Assert.Equal(white.Z, scaled.Z, 1e-9);
    }
}
