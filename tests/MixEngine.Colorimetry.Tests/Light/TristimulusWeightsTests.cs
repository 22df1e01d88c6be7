using CsCheck;

namespace MixEngine.Colorimetry.Tests;

public class TristimulusWeightsTests
{
    private const int FirstNm = 380;
    private const int LastNm = 780;
    private const int StepNm = 5;

    /// <summary>
    /// The 36 weights against the plain sum over the 5 nm tables, on measured spectra given every 5 nm. What remains is what the weights
    /// leave out: detail between our bands, and all that happens beyond 730 nm.
    /// </summary>
    [Theory]
    [InlineData("D65", 0.1)]
    [InlineData("D50", 0.1)]
    [InlineData("A", 0.1)]
    [InlineData("LED-B3", 0.1)]
    [InlineData("FL2", 0.1)]
    [InlineData("FL11", 0.3)]
    public void Ten_nm_weights_agree_with_the_sum_over_the_5_nm_tables(string light, double largestDeltaE)
    {
        var (worst, worstOfSampling) = (0.0, 0.0);
        foreach (var observer in Enum.GetValues<Observer>())
        {
            var weights = TristimulusWeights.For(new ViewingCondition(Illuminant.FromName(light), observer));
            foreach (var spectrum in MeasuredSpectra.EveryFiveNm(FirstNm, LastNm))
            {
                var direct = DirectSum(light, observer, spectrum.Values, StepNm);
                worst = Math.Max(worst, Difference(direct, weights.ToXyz(MeasuredSpectra.OnOurGrid(spectrum)), weights.White));

                // For comparison: the sum over every second line of the tables, which does not look between the bands.
                worstOfSampling = Math.Max(worstOfSampling, Difference(direct, DirectSum(light, observer, spectrum.Values, 2 * StepNm), weights.White));
            }
        }

        TestContext.Current.TestOutputHelper!.WriteLine($"{light}: worst {worst:0.000} dE00 with the weights, {worstOfSampling:0.000} by plain 10 nm sampling");
        Assert.InRange(worst, 0, largestDeltaE);
        Assert.True(worst < worstOfSampling);
    }

    [Fact]
    public void Weights_are_linear_in_the_reflectance() =>
        Gen.Select(Arbitrary.View, Arbitrary.RaggedReflectance, Arbitrary.RaggedReflectance, Gen.Double[0, 1]).Sample((view, first, second, share) =>
        {
            var weights = TristimulusWeights.For(view);
            var mixed = first.Zip(second, (a, b) => share * a + (1 - share) * b).ToArray();
            var (one, two) = (weights.ToXyz(first), weights.ToXyz(second));
            var expected = new Xyz(share * one.X + (1 - share) * two.X, share * one.Y + (1 - share) * two.Y, share * one.Z + (1 - share) * two.Z);
            Arbitrary.AssertNear(expected, weights.ToXyz(mixed), 1e-10);
        });

    [Fact]
    public void A_wrong_number_of_bands_is_refused() =>
        Assert.Throws<ArgumentException>(() => TristimulusWeights.For(ViewingCondition.Default).ToXyz(new double[35]));

    private static double Difference(Xyz first, Xyz second, Xyz white) =>
        DeltaE2000.Between(Lab.FromXyz(first, white), Lab.FromXyz(second, white));

    private static Xyz DirectSum(string light, Observer observer, double[] reflectance, int stepNm)
    {
        var tables = PublishedTable.AllIn(typeof(Xyz).Assembly).ToArray();
        var power = Between(tables.Single(table => table.Name.EndsWith("illuminants-5nm.csv")), light);
        var eye = tables.Single(table => table.Name.Contains(observer == Observer.Degree2 ? "observer-1931" : "observer-1964"));
        var (x, y, z) = (Between(eye, "x"), Between(eye, "y"), Between(eye, "z"));
        var (sumX, sumY, sumZ, white) = (0.0, 0.0, 0.0, 0.0);
        for (var i = 0; i < power.Length; i += stepNm / StepNm)
        {
            sumX += power[i] * x[i] * reflectance[i];
            sumY += power[i] * y[i] * reflectance[i];
            sumZ += power[i] * z[i] * reflectance[i];
            white += power[i] * y[i];
        }

        return new Xyz(100 * sumX / white, 100 * sumY / white, 100 * sumZ / white);
    }

    private static double[] Between(PublishedTable table, string column) =>
        [.. table.Rows.Where(row => row["nm"] is >= FirstNm and <= LastNm).Select(row => row[column])];
}
