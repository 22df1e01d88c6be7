namespace MixEngine.Core;

/// <summary>The mixtures on a path that can be counted in whole drops, and the best ramp made of them.</summary>
/// <param name="Recipes">The steps, dark to light.</param>
/// <param name="LookedAt">Drops up to which mixtures were looked at; fewer than asked for where there would have been too many.</param>
internal sealed record WholeDropRamp(IReadOnlyList<Recipe> Recipes, int LookedAt)
{
    /// <summary>More mixtures than these differ by less than an eye sees; the ones of fewer drops are taken.</summary>
    public const int MostMixtures = 400;

    // Rounding of a lightness.
    private const double SameLightness = 1e-9;

    /// <summary>Finds it: both ends kept, no step darker than the one before, least uneven; of fewer steps where so many do not exist.</summary>
    public static WholeDropRamp On(RampPath path, View view, RampOptions options, StepMeasure measure, CancellationToken cancellation)
    {
        var mixtures = Mixtures(path, options.Drops);
        var lookedAt = options.Drops;
        while (mixtures.Count > MostMixtures && lookedAt > 1)
        {
            lookedAt--;
            mixtures.RemoveAll(recipe => recipe.Total > lookedAt && recipe != mixtures[0] && recipe != mixtures[^1]);
        }

        // The differences of all pairs, once.
        cancellation.ThrowIfCancellationRequested();
        var labs = mixtures.Select(recipe => Prediction.LabOf(recipe, view)).ToArray();
        var coordinates = Array.ConvertAll(labs, measure.Coordinates);
        var difference = new double[labs.Length, labs.Length];
        for (var i = 0; i < labs.Length; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            for (var j = i + 1; j < labs.Length; j++)
            {
                difference[i, j] = measure.Between(coordinates[i], coordinates[j]);
            }
        }

        // As many steps as asked for, or the most there are.
        var search = new LeastUneven(
            difference,
            [.. mixtures.Select(recipe => (int)recipe.Total)],
            (_, from, to) => labs[to].L >= labs[from].L - SameLightness,
            cancellation);
        for (var steps = Math.Min(options.Steps, mixtures.Count) - 1; ; steps--)
        {
            if (search.Chain([.. Enumerable.Repeat(1.0, steps)]) is { } chain)
            {
                return new WholeDropRamp([.. chain.Select(i => mixtures[i])], lookedAt);
            }
        }
    }

    // All of them in the order of the path; both ends always, a recipe between where it can be counted.
    private static List<Recipe> Mixtures(RampPath path, int most)
    {
        var mixtures = new List<Recipe> { path.Nodes[0].InWholeDrops() };
        for (var leg = 0; leg < path.Legs.Count; leg++)
        {
            mixtures.AddRange(path.Legs[leg].WholeDrops(most).Select(mixture => mixture.Recipe));
            var node = path.Nodes[leg + 1];
            if (leg == path.Legs.Count - 1 || WholeParts.Of(node)?.Sum() <= most)
            {
                mixtures.Add(node.InWholeDrops());
            }
        }

        return mixtures;
    }
}
