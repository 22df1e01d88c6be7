using MixEngine.Colorimetry;
using MixEngine.Interchange;

namespace MixEngine.Service.Mapping;

/// <summary>Measured spectra on the engine's own bands.</summary>
internal static class SpectrumMapping
{
    /// <summary>The reflectance on 36 bands, 380 to 730 nm.</summary>
    public static Reflectance OnGrid(SpectrumReading spectrum) =>
        SpectrumResampling.ToGrid([.. spectrum.WavelengthsNm], [.. spectrum.Factors]).Reflectance;
}
