using CsCheck;
using MathNet.Numerics.Distributions;

namespace MixEngine.Core.Tests.Mixing;

public sealed class ChiSquareQuantileTests
{
    /// <summary>Tables of the chi-square distribution (from memory): 0.95 at 1, 2 and 3 degrees of freedom.</summary>
    [Theory]
    [InlineData(1, 3.841)]
    [InlineData(2, 5.991)]
    [InlineData(3, 7.815)]
    public void Reproduces_the_printed_table(double freedom, double quantile) => Assert.Equal(quantile, new ChiSquareQuantile(0.95).At(freedom), 0.0005);

    [Theory]
    [InlineData(0.68)]
    [InlineData(0.95)]
    public void Is_the_quantile_between_the_places_of_its_table_too(double probability)
    {
        var table = new ChiSquareQuantile(probability);
        Gen.Double[1, 3].Sample(freedom => Assert.Equal(probability, Gamma.CDF(freedom / 2, 0.5, table.At(freedom)), 1e-6));
    }
}
