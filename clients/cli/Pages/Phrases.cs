using MixEngine.V1;

namespace MixEngine.Cli.Pages;

/// <summary>What is said of a colour, a doubt or a step, the same in every answer.</summary>
internal static class Phrases
{
    /// <summary>"#5a6b3c   L 42.8  a -12.4  b +23.7".</summary>
    public static string Numbers(Color color)
    {
        string hex = color.HasInGamut && !color.InGamut ? $"near {color.Hex} (outside sRGB)" : color.Hex;
        return color.Lab is { } lab ? $"{hex}   L {Numerals.One(lab.L)}  a {Numerals.Signed(lab.A)}  b {Numerals.Signed(lab.B)}" : hex;
    }

    /// <summary>"a fair guide; within 2.1 two times in three, 4.2 nineteen in twenty".</summary>
    public static string Doubt(ExpectedError? error) => error is null
        ? "how sure is not known"
        : $"{error.Words}; within {Numerals.Difference(error.LikelyDeltaE00)} two times in three, {Numerals.Difference(error.BoundDeltaE00)} nineteen in twenty";

    /// <summary>"± 4.2", the difference that nineteen times in twenty holds.</summary>
    public static string PlusMinus(ExpectedError? error) => error is null ? "" : $"± {Numerals.Difference(error.BoundDeltaE00)}";

    /// <summary>"D65, 2 degree observer".</summary>
    public static string Conditions(Color color) => $"{color.Illuminant}, {color.ObserverDegrees} degree observer";

    /// <summary>"68 % tarred rope + 32 % kelp".</summary>
    public static string Shares(Recipe recipe) =>
        string.Join(" + ", recipe.Parts.Where(part => part.Share >= 0.0005).Select(part => $"{Numerals.UpTo(1, 100 * part.Share)} % {part.Paint}"));

    /// <summary>"1 coat", "3 coats".</summary>
    public static string Count(int n, string one) => n == 1 ? $"1 {one}" : $"{n} {one}s";

    /// <summary>A bar as long as its share of the longest: evenness that needs no eye for colour.</summary>
    public static string Bar(double value, double longest) => longest > 0
        ? new string('=', Math.Clamp((int)Math.Round(24 * value / longest), 0, 24))
        : "";
}
