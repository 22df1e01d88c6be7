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

        var options = MatchOptionsMapping.Read(request, view, shelf, violations);
        return (color is null || violations.Any ? null : TargetOf(color), options);
    }

    public static V1.MatchResponse Write(MatchTarget target, MatchResult result, MatchOptions options, V1.View? view, PaintWanted? wanted = null) => new()
    {
        Target = ColorMapping.Write(target.Under(options.View.Condition), options.View.Condition),
        Matches = { result.Matches.Select(match => Write(match, target, view)) },
        Reached = result.Reached,
        Reason = result.Shortfall is { } shortfall ? Sentence(shortfall.Words) : "",
        Undivided = Write(result.Undivided, target, view),
        Proven = result.Proven,
        Remarks = { Remarks(target, result, options) },
        PossibleDeltaE00 = result.PossibleDeltaE00,
        Recipes = result.Recipes,
        Wanted = wanted is null ? null : new V1.PaintWanted { Color = ColorMapping.Write(wanted.Look), Words = Sentence(wanted.Words), DeltaE00 = wanted.DeltaE00 },
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
        Added = { RecipeMapping.Write(match.Added) },
        Lights = { match.Lights.Select(Write) },
        WorstLight = Write(match.WorstLight),
        DropTooMany = match.Harm is { } harm
            ? new V1.DropTooMany { PaintId = harm.Paint.Id, Paint = harm.Paint.Name, DeltaE00 = harm.DeltaE00, Words = harm.Words }
            : null,
    };

    private static V1.LightDifference Write(LightDifference light) => new() { Light = light.Condition.Illuminant.Name, DeltaE00 = light.DeltaE00 };

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

    private static IEnumerable<string> Remarks(MatchTarget target, MatchResult result, MatchOptions options)
    {
        if (target.OutsideSurfaceColorsBy > 0)
        {
            yield return Text($"No surface can show this colour; the nearest that one can is {target.OutsideSurfaceColorsBy:0.0} dE00 away.");
        }

        if (!result.Reached && result.Undivided.DeltaE00 <= options.Tolerance)
        {
            yield return Text($"The drops are too coarse, not the paints too few: with drops divided it is reached ({result.Undivided.DeltaE00:0.00} dE00). Allow more drops.");
        }

        if (!result.Proven)
        {
            var bound = result.PossibleDeltaE00 > 0 ? Text($", though none nearer than {result.PossibleDeltaE00:0.0} dE00") : "";
            yield return Text($"Stopped before all of {result.Recipes:0} recipes were looked at or ruled out: there may be a better one{bound}. Ask for fewer paints or drops, or give more time.");
        }
    }

    private static string Sentence(string words) => char.ToUpperInvariant(words[0]) + words[1..] + ".";

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
