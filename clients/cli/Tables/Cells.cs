using MixEngine.V1;

namespace MixEngine.Cli.Tables;

/// <summary>The columns that every table of colours shares.</summary>
internal static class Cells
{
    public static readonly string[] ColorHeader = ["hex", "in_gamut", "l", "a", "b", "words", "illuminant", "observer_degrees"];

    public static readonly string[] ErrorHeader = ["likely_delta_e00", "bound_delta_e00"];

    public static string[] Of(Color? color) => color is null
        ? ["", "", "", "", "", "", "", ""]
        :
        [
            color.Hex,
            color.HasInGamut ? Of(color.InGamut) : "",
            color.Lab is { HasL: true } ? Of(color.Lab.L) : "",
            color.Lab is { HasA: true } ? Of(color.Lab.A) : "",
            color.Lab is { HasB: true } ? Of(color.Lab.B) : "",
            color.Words,
            color.Illuminant,
            Of(color.ObserverDegrees),
        ];

    public static string[] Of(ExpectedError? error) =>
        [error is { HasLikelyDeltaE00: true } ? Of(error.LikelyDeltaE00) : "", error is { HasBoundDeltaE00: true } ? Of(error.BoundDeltaE00) : ""];

    /// <summary>"r380" to "r730", one column a band; none where no reflectance was asked.</summary>
    public static string[] ReflectanceHeader(Spectrum? first) =>
        first is null ? [] : [.. first.WavelengthNm.Select(nm => "r" + Numerals.UpTo(3, nm))];

    public static string[] Of(Spectrum? reflectance) =>
        reflectance is null ? [] : [.. reflectance.Reflectance.Select(value => Numerals.UpTo(6, value))];

    /// <summary>"2 tarred rope + 1 kelp": the recipe as it may be asked again.</summary>
    public static string Of(Recipe? recipe) => recipe is null ? "" : Of(recipe.Parts);

    public static string Of(IEnumerable<Part> parts) => string.Join(" + ", parts.Select(part => $"{Of(part.Parts)} {part.Paint}"));

    public static string Of(double value) => Numerals.UpTo(4, value);

    public static string Of(int value) => value.ToString(Numerals.Invariant);

    public static string Of(bool value) => value ? "true" : "false";
}
