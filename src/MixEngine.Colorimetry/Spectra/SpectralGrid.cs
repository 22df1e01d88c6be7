namespace MixEngine.Colorimetry;

/// <summary>The one wavelength grid of the engine: 380 to 730 nm, every 10 nm, 36 bands.</summary>
public static class SpectralGrid
{
    /// <summary>Centre of the first band, in nm.</summary>
    public const int FirstNm = 380;

    /// <summary>Centre of the last band, in nm.</summary>
    public const int LastNm = 730;

    /// <summary>Distance between neighbouring bands, in nm.</summary>
    public const int StepNm = 10;

    /// <summary>Number of bands.</summary>
    public const int Bands = (LastNm - FirstNm) / StepNm + 1;

    /// <summary>The centre of a band in nm.</summary>
    /// <param name="band">0 to 35.</param>
    /// <exception cref="ArgumentOutOfRangeException">The band does not exist.</exception>
    public static int WavelengthNm(int band)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(band);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(band, Bands);
        return FirstNm + band * StepNm;
    }
}
