namespace MixEngine.Colorimetry.Tests;

public class ReflectanceTests
{
    [Fact]
    public void The_grid_runs_from_380_to_730_nm_in_36_bands()
    {
        Assert.Equal(36, SpectralGrid.Bands);
        Assert.Equal(380, SpectralGrid.WavelengthNm(0));
        Assert.Equal(730, SpectralGrid.WavelengthNm(35));
        Assert.Throws<ArgumentOutOfRangeException>(() => SpectralGrid.WavelengthNm(36));
    }

    [Theory]
    [InlineData(double.NaN, "NaN")]
    [InlineData(45, "45")]
    [InlineData(-0.001, "-0.001")]
    [InlineData(double.PositiveInfinity, "Infinity")]
    public void A_value_that_no_surface_has_is_refused_with_band_and_value(double bad, string shown)
    {
        var values = new double[36];
        values[3] = bad;
        var error = Assert.Throws<ArgumentException>(() => new Reflectance(values));
        Assert.Contains("410 nm", error.Message);
        Assert.Contains(shown, error.Message);
    }

    [Fact]
    public void A_wrong_number_of_values_is_refused() =>
        Assert.Contains("35 values", Assert.Throws<ArgumentException>(() => new Reflectance(new double[35])).Message);

    [Fact]
    public void It_does_not_change_with_the_array_it_came_from()
    {
        var values = new double[36];
        var reflectance = new Reflectance(values);
        values[0] = 1;
        Assert.Equal(0, reflectance[0]);
    }
}
