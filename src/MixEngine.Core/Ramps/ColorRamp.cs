namespace MixEngine.Core;

/// <summary>A ramp around one colour: the mid-tone matched from the shelf, its shadows and its highlights.</summary>
/// <param name="Middle">The recipe of the mid-tone and how near it comes.</param>
/// <param name="Ramp">The steps, dark to light, the mid-tone among them.</param>
/// <param name="Place">Which of the steps is the mid-tone, counted from 1.</param>
/// <param name="Shadow">What darkens it; null where nothing on the shelf does.</param>
/// <param name="Light">What lightens it; null where nothing on the shelf does.</param>
/// <param name="Remarks">What is to be said of it, in plain words.</param>
public sealed record ColorRamp(Match Middle, EvenRamp Ramp, int Place, RampWing? Shadow, RampWing? Light, IReadOnlyList<string> Remarks)
{
    /// <summary>Makes the ramp.</summary>
    /// <param name="target">The mid-tone.</param>
    /// <param name="shelf">The paints to make it from.</param>
    /// <param name="view">How it is looked at.</param>
    /// <param name="options">What it should be like.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <exception cref="ArgumentException">There is no paint to mix from, or none that darkens or lightens the mid-tone; or an option is out of range.</exception>
    public static ColorRamp Around(MatchTarget target, IReadOnlyList<Paint> shelf, View view, ColorRampOptions options, CancellationToken cancellation = default)
    {
        // The mid-tone, in half of the drops at most, so that something can be added to it.
        var drops = Math.Max(1, options.Ramp.Drops / 2);
        var match = RecipeSearch.Find(target, shelf, new MatchOptions { View = view, Paints = Math.Min(options.Paints, drops), Drops = drops }, cancellation);
        cancellation.ThrowIfCancellationRequested();
        var middle = match.Best;
        var lab = middle.Appearance.Lab;

        // Its wings: what darkens it and what lightens it best, together from few paints.
        var wings = new RampWings(middle.Recipe, lab, shelf, view, options);
        var lightest = options.Lightest ?? lab.L + 0.55 * (97 - lab.L);
        var darkest = options.Darkest ?? lab.L - 0.55 * (lab.L - 5);
        var (shadow, light) = wings.Pair(darkest, lightest, cancellation);
        if (shadow is null && light is null)
        {
            throw new ArgumentException($"No paint of the shelf darkens or lightens '{middle.Recipe}' in at most {options.Ramp.Drops} drops.", nameof(shelf));
        }

        Recipe[] through = [.. shadow is null ? Array.Empty<Recipe>() : [shadow.End], middle.Recipe, .. light is null ? Array.Empty<Recipe>() : [light.End]];
        var kept = shadow is null ? 0 : 1;
        var ramp = EvenRamp.Through(through, view, options.Ramp with { Kept = [kept], KeepEnds = true }, cancellation);
        var place = Enumerable.Range(0, ramp.Steps.Count).First(i => RampLeg.AreSame(ramp.Steps[i].Prediction.Recipe, middle.Recipe)) + 1;
        return new ColorRamp(middle, ramp, place, shadow, light, [.. Remarked(match, shadow, light, darkest, lightest, options), .. ramp.Remarks]);
    }

    private static IEnumerable<string> Remarked(MatchResult match, RampWing? shadow, RampWing? light, double darkest, double lightest, ColorRampOptions options)
    {
        if (!match.Reached)
        {
            yield return Text($"The mid-tone is not reached: {match.Shortfall!.Words} ({match.Best.DeltaE00:0.0} dE00).");
        }

        foreach (var (wing, word, asked) in new[] { (shadow, "shadow", darkest), (light, "light", lightest) })
        {
            if (wing is null)
            {
                yield return $"Nothing on the shelf leads from the mid-tone into the {word}.";
                continue;
            }

            if (Math.Abs(wing.EndLightness - asked) > RampWings.ShortBy)
            {
                yield return Text($"The {word} ends at L {wing.EndLightness:0}; L {asked:0} was aimed at.");
            }

            if (wing.ChromaKept < options.ChromaShare)
            {
                yield return Text($"The {word} keeps {100 * wing.ChromaKept:0} % of the chroma that could be kept there, less than the {100 * options.ChromaShare:0} % asked for: what keeps more does worse in hue or lightness.");
            }
        }
    }

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}
