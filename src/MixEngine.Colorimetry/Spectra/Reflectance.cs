using System.Globalization;

namespace MixEngine.Colorimetry;

/// <summary>A reflectance factor (or transmittance) on the <see cref="SpectralGrid"/>: 36 shares of light, each in [0, 1].</summary>
public sealed class Reflectance
{
    private readonly double[] _values;

    /// <summary>Takes a copy of 36 values.</summary>
    /// <exception cref="ArgumentException">Not 36 values, or one that is not a number in [0, 1]; the message names band and value.</exception>
    public Reflectance(ReadOnlySpan<double> values)
    {
        if (values.Length != SpectralGrid.Bands)
        {
            throw new ArgumentException(
                $"A reflectance has {SpectralGrid.Bands} bands ({SpectralGrid.FirstNm} to {SpectralGrid.LastNm} nm every {SpectralGrid.StepNm} nm), but {values.Length} values were given.",
                nameof(values));
        }

        for (var band = 0; band < values.Length; band++)
        {
            // Written so that NaN fails too.
            if (!(values[band] >= 0 && values[band] <= 1))
            {
                throw new ArgumentException(
                    $"The reflectance at {SpectralGrid.WavelengthNm(band)} nm is {values[band].ToString(CultureInfo.InvariantCulture)}, but it must be a number from 0 to 1.",
                    nameof(values));
            }
        }

        _values = values.ToArray();
    }

    /// <summary>The 36 values, from 380 to 730 nm.</summary>
    public ReadOnlySpan<double> Values => _values;

    /// <summary>The value of one band, 0 to 35.</summary>
    public double this[int band] => _values[band];

    /// <summary>The same value in every band: a perfect grey.</summary>
    /// <exception cref="ArgumentException">The value is not a number in [0, 1].</exception>
    public static Reflectance Constant(double value)
    {
        Span<double> values = stackalloc double[SpectralGrid.Bands];
        values.Fill(value);
        return new Reflectance(values);
    }
}
