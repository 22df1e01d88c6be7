using MixEngine.Colorimetry;

namespace MixEngine.Interchange;

/// <summary>A measured reflectance on the grid it was measured on.</summary>
public sealed record SpectrumReading : ColorReading
{
    /// <summary>The widest step, in nm, across which a spectrum is interpolated (the bound of <see cref="SpectrumResampling"/>, as are the two below).</summary>
    public const double WidestStepNm = 40;

    /// <summary>A spectrum must begin at or below this wavelength, in nm.</summary>
    public const double BeginsByNm = 420;

    /// <summary>A spectrum must end at or above this wavelength, in nm.</summary>
    public const double EndsByNm = 680;

    private readonly double[] _wavelengthsNm;
    private readonly double[] _factors;

    /// <param name="wavelengthsNm">Ascending, from 420 nm or less to 680 nm or more, without steps above 40 nm.</param>
    /// <param name="factors">Reflectance factors, 0 to 1, one for each wavelength.</param>
    /// <exception cref="ArgumentException">A wavelength or a factor is outside these bounds; the message names it.</exception>
    public SpectrumReading(IReadOnlyList<double> wavelengthsNm, IReadOnlyList<double> factors)
        : this([.. wavelengthsNm], [.. factors]) { }

    private SpectrumReading(double[] wavelengthsNm, double[] factors)
    {
        _wavelengthsNm = wavelengthsNm;
        _factors = factors;
        Resampled = SpectrumResampling.ToGrid(wavelengthsNm, factors);
    }

    /// <summary>Keeps the arrays themselves, so that many spectra can share one grid; nobody may change them.</summary>
    internal static SpectrumReading Of(double[] wavelengthsNm, double[] factors) => new(wavelengthsNm, factors);

    /// <summary>The same on the engine's grid, and what that took.</summary>
    public ResampledSpectrum Resampled { get; }

    /// <summary>Ascending wavelengths, nm.</summary>
    public IReadOnlyList<double> WavelengthsNm => _wavelengthsNm;

    /// <summary>Reflectance factors, 0 to 1, one for each wavelength.</summary>
    public IReadOnlyList<double> Factors => _factors;

    /// <summary>What is wrong with a grid of wavelengths, in words; null when it will do.</summary>
    internal static string? GridFault(ReadOnlySpan<double> wavelengthsNm)
    {
        if (wavelengthsNm.Length == 0)
        {
            return "There is no wavelength.";
        }
        for (int i = 1; i < wavelengthsNm.Length; i++)
        {
            double step = wavelengthsNm[i] - wavelengthsNm[i - 1];
            if (!(step > 0))
            {
                return FormattableString.Invariant($"Wavelengths must ascend: {wavelengthsNm[i]} nm follows {wavelengthsNm[i - 1]} nm.");
            }
            if (step > WidestStepNm)
            {
                return FormattableString.Invariant($"Nothing is measured between {wavelengthsNm[i - 1]} and {wavelengthsNm[i]} nm: steps may be at most {WidestStepNm} nm.");
            }
        }
        return wavelengthsNm[0] <= BeginsByNm && wavelengthsNm[^1] >= EndsByNm
            ? null
            : FormattableString.Invariant($"The spectrum covers {wavelengthsNm[0]} to {wavelengthsNm[^1]} nm: it must reach from {BeginsByNm} nm or less to {EndsByNm} nm or more.");
    }

    /// <summary>Equal when measured on the same wavelengths with the same factors.</summary>
    public bool Equals(SpectrumReading? other) =>
        other is not null && _wavelengthsNm.AsSpan().SequenceEqual(other._wavelengthsNm) && _factors.AsSpan().SequenceEqual(other._factors);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(_factors.Length, _wavelengthsNm[0], _factors[0], _factors[^1]);
}
