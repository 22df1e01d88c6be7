namespace MixEngine.Colorimetry;

/// <summary>A spectrum brought to the <see cref="SpectralGrid"/>, and what had to be made up on the way.</summary>
/// <param name="Reflectance">The spectrum on our grid.</param>
/// <param name="FirstMeasuredNm">Where the given values began.</param>
/// <param name="LastMeasuredNm">Where they ended.</param>
/// <param name="ExtendedBands">How many of our 36 bands lie beyond them and repeat the nearest given value.</param>
/// <param name="SourceStepNm">The widest step between given values; above 10 nm the bands between are interpolated.</param>
public sealed record ResampledSpectrum(
    Reflectance Reflectance,
    double FirstMeasuredNm,
    double LastMeasuredNm,
    int ExtendedBands,
    double SourceStepNm);
