using System.Globalization;
using MixEngine.Colorimetry;
using MixEngine.Core;
using MixEngine.Interchange;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;

namespace MixEngine.Service.Mapping;

/// <summary>Matches as asked and as answered.</summary>
internal static class MatchMapping
{
    public static (MatchTarget? Target, MatchOptions Options) Read(V1.MatchRequest request, View view, Shelf shelf, Violations violations)
    {
        var color = ColorInputMapping.Read(request.Target, "target", view.Condition, violations);
        if (shelf.Paints.All(paint => paint.Kind != PaintKind.Paint))
        {
            violations.Add("shelf", $"There is no paint on the shelf '{shelf.Name}' to mix from.");
        }

        var options = new MatchOptions
        {
            View = view,
            Paints = violations.InRange("paints", request.Paints, 1, MatchOptions.MostPaints, ifZero: MatchOptions.MostPaints),
            Drops = violations.InRange("drops", request.Drops, 1, MatchOptions.MostDrops, ifZero: new MatchOptions().Drops),
        };
        return (color is null || violations.Any ? null : TargetOf(color), options);
    }

    public static V1.MatchResponse Write(MatchTarget target, MatchResult result, MatchOptions options, V1.View? view) => new()
    {
        Target = ColorMapping.Write(target.Under(options.View.Condition), options.View.Condition),
        Matches = { result.Matches.Select(match => Write(match, target, view)) },
        Reached = result.Reached,
        Reason = result.Shortfall is { } shortfall ? Sentence(shortfall.Words) : "",
        Undivided = Write(result.Undivided, target, view),
        Proven = result.Proven,
        Remarks = { Remarks(target, result) },
    };

    /// <summary>A colour as something to be reached, whatever it was given as.</summary>
    public static MatchTarget TargetOf(ColorReading color) => color switch
    {
        HexReading { Hex: var hex } => MatchTarget.OfColor(hex.ToXyz(), ViewingCondition.Default),
        LabReading { Lab: var lab, Condition: var condition } => MatchTarget.OfLab(lab, condition),
        SpectrumReading spectrum => MatchTarget.OfReflectance(SpectrumMapping.OnGrid(spectrum)),
        _ => throw new InvalidOperationException($"No target is known of a {color.GetType().Name}."),
    };

    public static V1.Match Write(Match match, MatchTarget target, V1.View? view) => new()
    {
        Recipe = RecipeMapping.Write(match.Recipe),
        Color = ColorMapping.Write(match.Appearance),
        DeltaE00 = match.DeltaE00,
        ExpectedError = ColorMapping.Write(match.ExpectedError),
        Reflectance = ColorMapping.WriteReflectance(match.Appearance.Reflectance, view),
        Remarks = { Remarks(match, target) },
    };

    private static IEnumerable<string> Remarks(Match match, MatchTarget target)
    {
        if (match.Harm is { } harm)
        {
            yield return Text($"{Sentence(harm.Words)} {harm.DeltaE00:0.0} dE00 from the target then.");
        }

        // A light under which it is off by more than the answer itself says.
        if (match.WorstLight.DeltaE00 > match.DeltaE00 + MatchOptions.Unseen)
        {
            yield return Text($"Under {match.WorstLight.Condition.Illuminant.Name} it lies {match.WorstLight.DeltaE00:0.0} dE00 from {(target.IsMeasured ? "the target" : "what a surface of that colour would most likely look like there")}.");
        }
    }

    private static IEnumerable<string> Remarks(MatchTarget target, MatchResult result)
    {
        if (target.OutsideSurfaceColorsBy > 0)
        {
            yield return Text($"No surface can show this colour; the nearest that one can is {target.OutsideSurfaceColorsBy:0.0} dE00 away.");
        }

        if (!result.Proven)
        {
            yield return Text($"Stopped when the time was up, before all of {result.Recipes:0} recipes were looked at or ruled out: there may be a better one. Ask for fewer paints or drops, or give more time.");
        }
    }

    private static string Sentence(string words) => char.ToUpperInvariant(words[0]) + words[1..] + ".";

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
