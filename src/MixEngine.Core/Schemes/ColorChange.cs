using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>A change of colour in a painter's words, such as "a little duller and darker".</summary>
/// <remarks>The sizes are ours: one word moves a colour as far as an eye tells at once across a table, "a little" half, "much" twice as far.</remarks>
/// <param name="Lightness">Change of L*.</param>
/// <param name="ChromaFactor">Factor on C*.</param>
/// <param name="Warmth">-1 to 1 and beyond: hue degrees towards yellow-orange (positive) or blue (negative), in units of 15.</param>
/// <param name="Words">As written.</param>
public sealed record ColorChange(double Lightness, double ChromaFactor, double Warmth, string Words)
{
    private const double LightnessStep = 10;
    private const double ChromaStep = 0.65;
    private const double HueStep = 15;
    private const double WarmHue = 65;

    /// <summary>The words that are understood.</summary>
    public static IReadOnlyList<string> Known { get; } = ["lighter", "darker", "duller", "brighter", "warmer", "cooler"];

    /// <summary>
    /// Reads words joined by "and" or commas; null where one is not understood. "A little" and "much" hold up to the next comma:
    /// "a little duller and darker" is a little of both.
    /// </summary>
    public static ColorChange? Parse(string words)
    {
        var change = new ColorChange(0, 1, 0, words.Trim());
        var any = false;
        foreach (var group in words.ToLowerInvariant().Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            var size = 1.0;
            foreach (var clause in group.Split(" and ", StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
            {
                (size, var word) = Measured(clause, size);
                if (change.With(word, size) is not { } changed)
                {
                    return null;
                }

                (change, any) = (changed, true);
            }
        }

        return any ? change : null;
    }

    private static (double Size, string Word) Measured(string clause, double size)
    {
        foreach (var (measure, by) in new[] { ("a little ", 0.5), ("much ", 2.0) })
        {
            if (clause.StartsWith(measure, StringComparison.Ordinal))
            {
                return (by, clause[measure.Length..].Trim());
            }
        }

        return (size, clause);
    }

    private ColorChange? With(string word, double size) => word switch
    {
        "lighter" => this with { Lightness = Lightness + size * LightnessStep },
        "darker" => this with { Lightness = Lightness - size * LightnessStep },
        "duller" => this with { ChromaFactor = ChromaFactor * Math.Pow(ChromaStep, size) },
        "brighter" => this with { ChromaFactor = ChromaFactor / Math.Pow(ChromaStep, size) },
        "warmer" => this with { Warmth = Warmth + size },
        "cooler" => this with { Warmth = Warmth - size },
        _ => null,
    };

    /// <summary>The changed colour; its lightness stays within 0 to 100.</summary>
    public Lab Of(Lab color)
    {
        var lightness = Math.Clamp(color.L + Lightness, 0, 100);
        var chroma = color.Chroma * ChromaFactor;
        if (color.HueDegrees is not { } hue)
        {
            // A grey has no hue to turn: warmth tints it.
            var warm = WarmHue * Math.PI / 180;
            var tint = 4 * Warmth;
            return new Lab(lightness, color.A * ChromaFactor + tint * Math.Cos(warm), color.B * ChromaFactor + tint * Math.Sin(warm));
        }

        // Turn towards the warm pole or away from it, on the shorter way, never past it.
        var toWarm = Math.IEEERemainder(WarmHue - hue, 360);
        var limit = Warmth > 0 ? Math.Abs(toWarm) : 180 - Math.Abs(toWarm);
        var turn = Math.Min(Math.Abs(Warmth) * HueStep, limit) * (Warmth >= 0 ? 1 : -1) * (toWarm >= 0 ? 1 : -1);
        var turned = (hue + turn) * Math.PI / 180;
        return new Lab(lightness, chroma * Math.Cos(turned), chroma * Math.Sin(turned));
    }
}
