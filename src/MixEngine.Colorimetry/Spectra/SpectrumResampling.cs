namespace MixEngine.Colorimetry;

/// <summary>
/// Brings a reflectance measured on another grid to the <see cref="SpectralGrid"/> by local Lagrange cubics
/// [ASTM-E2022] [CIE167]; bands beyond the measured range repeat its end value, and the result says how many.
/// </summary>
public static class SpectrumResampling
{
    // Beyond these ends lies less than half a percent of the luminance, so repeating the end value is harmless (computed).
    private const double MustStartNm = 420;
    private const double MustEndNm = 680;

    // Two samples per pigment edge are the least that can show it.
    private const double WidestStepNm = 40;

    /// <summary>Reads a measured reflectance at our 36 bands.</summary>
    /// <param name="wavelengthsNm">Strictly increasing, even or uneven, from 420 nm or below to 680 nm or above, steps of at most 40 nm.</param>
    /// <param name="values">As many reflectance factors, each in [0, 1].</param>
    /// <exception cref="ArgumentException">The message names what is wrong and at which wavelength.</exception>
    public static ResampledSpectrum ToGrid(ReadOnlySpan<double> wavelengthsNm, ReadOnlySpan<double> values)
    {
        SpectralSamples.RefuseUnusable("the spectrum", wavelengthsNm, values, MustStartNm, MustEndNm);
        for (var i = 0; i < values.Length; i++)
        {
            if (values[i] is < 0 or > 1)
            {
                throw new ArgumentException(
                    $"The reflectance at {SpectralSamples.Text(wavelengthsNm[i])} nm is {SpectralSamples.Text(values[i])}, but it must be from 0 to 1 (1 is a perfect white).",
                    nameof(values));
            }
        }

        var step = SpectralSamples.WidestStepNm(wavelengthsNm);
        if (step > WidestStepNm)
        {
            throw new ArgumentException(
                $"Two neighbouring wavelengths of the spectrum lie {SpectralSamples.Text(step)} nm apart; more than {WidestStepNm} nm cannot be interpolated.",
                nameof(wavelengthsNm));
        }

        Span<double> weights = stackalloc double[LagrangeInterpolation.MaxPoints];
        Span<double> bands = stackalloc double[SpectralGrid.Bands];
        var extended = 0;
        for (var band = 0; band < bands.Length; band++)
        {
            var nm = SpectralGrid.WavelengthNm(band);
            if (nm < wavelengthsNm[0] || nm > wavelengthsNm[^1])
            {
                extended++;
            }

            var (first, count) = LagrangeInterpolation.Weights(wavelengthsNm, nm, weights);
            for (var i = 0; i < count; i++)
            {
                bands[band] += weights[i] * values[first + i];
            }

            // A cubic beside a steep edge may swing past what a surface can do.
            bands[band] = Math.Clamp(bands[band], 0, 1);
        }

        return new ResampledSpectrum(new Reflectance(bands), wavelengthsNm[0], wavelengthsNm[^1], extended, step);
    }
}
