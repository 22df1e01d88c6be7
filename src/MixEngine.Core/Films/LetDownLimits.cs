using System.Globalization;

namespace MixEngine.Core;

/// <summary>How far a paint can be let down before its film suffers. Common practice, no source.</summary>
public static class LetDownLimits
{
    /// <summary>Share of added water in the wet mixture above which an acrylic film weakens: a third.</summary>
    public const double WaterWeakens = 1.0 / 3;

    /// <summary>Share of added water above which the film breaks up: a half. Medium does not do that.</summary>
    public const double WaterBreaks = 1.0 / 2;

    /// <summary>Parts of medium to one of paint up to which glazes are used: ten.</summary>
    public const double MostMedium = 10;

    /// <summary>What is to be said of a recipe before it is brushed on.</summary>
    public static IEnumerable<string> Remarks(Recipe recipe)
    {
        double Parts(PaintKind kind) => recipe.Parts.Where(part => part.Paint.Kind == kind).Sum(part => part.Parts);
        var (paint, medium, water) = (Parts(PaintKind.Paint), Parts(PaintKind.Medium), Parts(PaintKind.Water));

        var share = water / recipe.Total;
        if (share > WaterBreaks)
        {
            yield return Text($"Water is {100 * share:0} % of this mixture: beyond about a half the film breaks up and dries in rings. Take medium for most of it (common practice).");
        }
        else if (share > WaterWeakens)
        {
            yield return Text($"Water is {100 * share:0} % of this mixture: beyond about a third the film weakens. Take medium for part of it (common practice).");
        }

        if (paint == 0)
        {
            yield return "There is no pigment in this: it changes no colour.";
        }
        else if (medium > MostMedium * paint)
        {
            yield return Text($"{medium / paint:0.#} parts of medium to one of paint are more than the ten that glazes are commonly let down with: each coat will do very little.");
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
