using System.Globalization;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>A recipe scaled up to an amount in whole drops, with what the rounding does to its colour.</summary>
/// <param name="Recipe">The recipe at its smallest.</param>
/// <param name="Scaled">Whole drops of each bottle for the amount.</param>
/// <param name="NeededMl">What is needed, ml.</param>
/// <param name="Ml">What is mixed, ml: never less.</param>
/// <param name="RoundingDeltaE00">Difference of the scaled drops from the recipe, CIEDE2000; 0 for a multiple of it.</param>
/// <param name="Warning">Where the amount is too small to measure out, what to do; null otherwise.</param>
public sealed record Pot(Recipe Recipe, Recipe Scaled, double NeededMl, double Ml, double RoundingDeltaE00, string? Warning)
{
    /// <summary>Below this difference a rounding is not seen, CIEDE2000: less than what a trained eye just sees side by side (common practice).</summary>
    public const double UnseenRounding = 0.5;

    /// <summary>Scales a recipe.</summary>
    /// <param name="recipe">Parts in drops.</param>
    /// <param name="neededMl">What is needed, ml, above 0.</param>
    /// <param name="view">How the colour is looked at.</param>
    public static Pot Of(Recipe recipe, double neededMl, View view)
    {
        if (!(neededMl > 0) || !double.IsFinite(neededMl))
        {
            throw new ArgumentOutOfRangeException(nameof(neededMl), neededMl, "An amount above 0 ml.");
        }

        // The smallest multiple that is enough has no rounding at all.
        var unit = MlOf(recipe);
        var smallest = Smallest(recipe);
        var times = Math.Max(1, Math.Ceiling(neededMl / MlOf(smallest) - 1e-9));
        var best = new Pot(recipe, Times(smallest, times), neededMl, MlOf(smallest) * times, 0, WarningOf(smallest, neededMl));

        // A let-down keeps its ratio: what medium does is not seen in a hiding layer.
        if (recipe.Parts.Any(part => part.Paint.Kind != PaintKind.Paint))
        {
            return best;
        }

        // Fewer drops may do as well, where rounding each paint to whole drops is not seen.
        var aim = Prediction.LabOf(recipe, view);
        var least = (int)Math.Ceiling(neededMl / unit * recipe.Total - 1e-9);
        for (var drops = Math.Max(least, recipe.Parts.Count); drops < best.Scaled.Total; drops++)
        {
            var rounded = Rounded(recipe, drops);
            var error = DeltaE2000.Between(aim, Prediction.LabOf(rounded, view));
            if (MlOf(rounded) >= neededMl && error <= UnseenRounding)
            {
                return best with { Scaled = rounded, Ml = MlOf(rounded), RoundingDeltaE00 = error };
            }
        }

        return best;
    }

    /// <summary>Volume of a recipe's drops, ml: by each bottle's own drops where they were counted.</summary>
    public static double MlOf(Recipe recipe) => recipe.Parts.Sum(part => part.Parts / (part.Paint.DropsPerMl ?? Paint.ConventionalDropsPerMl));

    /// <summary>The mix as it is read aloud at a table: "2 + 1 drops".</summary>
    public string DropsText => string.Join(" + ", Scaled.Parts.Select(part => part.Parts.ToString("0.##", CultureInfo.InvariantCulture)));

    // Whole parts as they are; a let-down with 2.5 parts of medium is doubled, tripled ... until all are whole.
    private static Recipe Smallest(Recipe recipe)
    {
        const int most = 10;
        for (var times = 1; times <= most; times++)
        {
            if (recipe.Parts.All(part => Math.Abs(part.Parts * times - Math.Round(part.Parts * times)) < 1e-9))
            {
                return new Recipe(recipe.Parts.Select(part => part with { Parts = Math.Round(part.Parts * times) }));
            }
        }

        return Rounded(recipe, (int)Math.Ceiling(recipe.Total * most));
    }

    private static Recipe Times(Recipe recipe, double times) => new(recipe.Parts.Select(part => part with { Parts = part.Parts * times }));

    // Largest remainders, at least one drop of each: a strong tinter is never silently dropped.
    private static Recipe Rounded(Recipe recipe, int drops)
    {
        var exact = recipe.Parts.Select(part => part.Parts / recipe.Total * drops).ToArray();
        var whole = exact.Select(part => Math.Max(1, Math.Floor(part))).ToArray();
        foreach (var i in Enumerable.Range(0, exact.Length).OrderByDescending(i => exact[i] - whole[i]).ThenBy(i => i))
        {
            whole[i] += whole.Sum() < drops ? 1 : 0;
        }

        return new Recipe(recipe.Parts.Select((part, i) => part with { Parts = whole[i] }));
    }

    private static string? WarningOf(Recipe smallest, double neededMl)
    {
        var share = neededMl / MlOf(smallest);
        return share >= 1
            ? null
            : string.Create(CultureInfo.InvariantCulture, $"A brushful ({neededMl:0.00} ml): mix {(smallest.Total == 1 ? "one drop" : $"{smallest.Total:0} drops")} and keep the rest, or take the parts with the tip of the brush.");
    }
}
