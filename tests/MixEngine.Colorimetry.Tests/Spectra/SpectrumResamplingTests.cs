using CsCheck;

namespace MixEngine.Colorimetry.Tests;

public class SpectrumResamplingTests
{
    /// <summary>The same swatch at 10 nm and at 20 nm must be the same colour.</summary>
    [Fact]
    public void Twenty_nm_steps_give_the_colour_of_ten_nm_steps_within_0_3()
    {
        var weights = TristimulusWeights.For(ViewingCondition.D65Degree10);
        var worst = ("", 0.0);
        foreach (var spectrum in MeasuredSpectra.EveryFiveNm(380, 780))
        {
            var fine = MeasuredSpectra.OnOurGrid(spectrum);
            var coarse = SpectrumResampling.ToGrid(
                [.. spectrum.Wavelengths.Where(nm => nm % 20 == 0)],
                [.. spectrum.Values.Where((_, i) => spectrum.Wavelengths[i] % 20 == 0)]);
            var difference = DeltaE2000.Between(
                Lab.FromXyz(weights.ToXyz(fine), weights.White),
                Lab.FromXyz(weights.ToXyz(coarse.Reflectance), weights.White));
            if (difference > worst.Item2)
            {
                worst = (spectrum.Name, difference);
            }

            Assert.Equal(20, coarse.SourceStepNm);
            Assert.Equal(0, coarse.ExtendedBands);
        }

        TestContext.Current.TestOutputHelper!.WriteLine($"worst: {worst}");
        Assert.InRange(worst.Item2, 0, 0.3);
    }

    [Fact]
    public void Missing_ends_repeat_the_nearest_value_and_are_counted()
    {
        double[] nm = [.. Enumerable.Range(0, 31).Select(i => 400.0 + 10 * i)];
        double[] values = [.. nm.Select((_, i) => 0.1 + 0.02 * i)];
        var result = SpectrumResampling.ToGrid(nm, values);
        Assert.Equal((400, 700, 5, 10), (result.FirstMeasuredNm, result.LastMeasuredNm, result.ExtendedBands, result.SourceStepNm));
        Assert.Equal([0.1, 0.1, 0.1], result.Reflectance.Values[..3].ToArray());
        Assert.Equal([values[^1], values[^1], values[^1], values[^1]], result.Reflectance.Values[^4..].ToArray());
    }

    [Fact]
    public void Our_own_grid_comes_back_unchanged() =>
        Arbitrary.RaggedReflectance.Sample(values =>
        {
            double[] nm = [.. Enumerable.Range(0, 36).Select(i => (double)SpectralGrid.WavelengthNm(i))];
            Assert.Equal(values, SpectrumResampling.ToGrid(nm, values).Reflectance.Values.ToArray());
        });

    [Fact]
    public void A_cubic_is_met_exactly_between_even_and_uneven_samples() =>
        Gen.Select(Gen.Double[-1, 1], Gen.Double[-1, 1], Gen.Double[-1, 1], Gen.Int[5, 35]).Sample((a, b, c, step) =>
        {
            // A cubic kept well inside [0, 1], sampled at steps that alternate between step and step - 2.
            double Cubic(double at)
            {
                var x = (at - 555) / 200;
                return 0.5 + 0.1 * (a * x + b * x * x + c * x * x * x);
            }

            var nm = new List<double> { 340 };
            while (nm[^1] < 780)
            {
                nm.Add(nm[^1] + step - nm.Count % 2 * 2);
            }

            var result = SpectrumResampling.ToGrid(nm.ToArray(), [.. nm.Select(Cubic)]);
            for (var band = 0; band < SpectralGrid.Bands; band++)
            {
                Assert.Equal(Cubic(SpectralGrid.WavelengthNm(band)), result.Reflectance[band], 1e-12);
            }
        });

    [Fact]
    public void A_steep_edge_never_leaves_the_possible() =>
        Gen.Int[10, 40].Sample(step =>
        {
            double[] nm = [.. Enumerable.Range(0, 500 / step).Select(i => 360.0 + i * step)];
            double[] values = [.. nm.Select(at => at < 550 ? 0.0 : 1.0)];
            var result = SpectrumResampling.ToGrid(nm, values).Reflectance;
            Assert.All(result.Values.ToArray(), value => Assert.InRange(value, 0, 1));
        });

    [Theory]
    [InlineData(new double[] { 400, 440, 480, 520, 560, 600, 640, 680 }, 8, 45, "520 nm is 45")]
    [InlineData(new double[] { 400, 440, 480, 520, 560, 600, 640, 680 }, 8, double.NaN, "520 nm is NaN")]
    [InlineData(new double[] { 400, 440, 480, 520, 560, 600, 640, 680 }, 7, 0.5, "7 values")]
    [InlineData(new double[] { 400, 450, 480, 520, 560, 600, 640, 680 }, 8, 0.5, "50 nm apart")]
    [InlineData(new double[] { 400, 440, 440, 520, 560, 600, 640, 680 }, 8, 0.5, "Wavelength 3")]
    [InlineData(new double[] { 440, 460, 480, 520, 560, 600, 640, 680 }, 8, 0.5, "420 to 680")]
    public void An_unusable_spectrum_is_refused_with_the_reason(double[] nm, int count, double fourth, string reason)
    {
        var values = Enumerable.Repeat(0.5, count).ToArray();
        values[3] = fourth;
        Assert.Contains(reason, Assert.Throws<ArgumentException>(() => SpectrumResampling.ToGrid(nm, values)).Message);
    }
}
