using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Service.Mapping;

/// <summary>Colours as answered.</summary>
internal static class ColorMapping
{
    /// <summary>A colour seen.</summary>
    public static V1.Color Write(Appearance appearance) => Write(appearance.Lab, appearance.Display, appearance.Condition);

    /// <summary>A colour known by its Lab.</summary>
    public static V1.Color Write(Lab lab, ViewingCondition condition)
    {
        var white = TristimulusWeights.For(condition).White;
        return Write(lab, DisplayColor.From(lab.ToXyz(white), white), condition);
    }

    /// <summary>The reflectance, where it was asked for.</summary>
    public static V1.Spectrum? WriteReflectance(Reflectance reflectance, V1.View? view)
    {
        if (view?.WithReflectance != true)
        {
            return null;
        }

        var spectrum = new V1.Spectrum();
        spectrum.WavelengthNm.Add(Wavelengths);
        spectrum.Reflectance.Add(reflectance.Values.ToArray());
        return spectrum;
    }

    /// <summary>The engine's bands, nm.</summary>
    public static IReadOnlyList<double> Wavelengths { get; } = [.. Enumerable.Range(0, SpectralGrid.Bands).Select(band => (double)SpectralGrid.WavelengthNm(band))];

    /// <summary>How far the truth may lie from a colour.</summary>
    public static V1.ExpectedError Write(ExpectedError error) =>
        new() { LikelyDeltaE00 = error.Likely, BoundDeltaE00 = error.Bound, Words = error.Words };

    private static V1.Color Write(Lab lab, DisplayColor display, ViewingCondition condition) => new()
    {
        Lab = new V1.Lab { L = lab.L, A = lab.A, B = lab.B },
        Hex = display.Hex.ToString(),
        InGamut = display.InGamut,
        Words = ColorWords.Describe(lab),
        Illuminant = condition.Illuminant.Name,
        ObserverDegrees = ViewMapping.Degrees(condition.Observer),
    };
}
