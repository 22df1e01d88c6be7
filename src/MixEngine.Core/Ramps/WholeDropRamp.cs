using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>The best ramp among the mixtures on a path that can be counted in whole drops.</summary>
/// <param name="Recipes">The steps, dark to light.</param>
/// <param name="Mixtures">How many mixtures can be counted.</param>
/// <param name="Spacing">Difference within which mixtures were passed over for one of fewer drops, where there were too many to look at all; else 0.</param>
/// <param name="WithinLimits">Whether every step is within the limits asked for.</param>
internal sealed record WholeDropRamp(IReadOnlyList<Recipe> Recipes, int Mixtures, double Spacing, bool WithinLimits)
{
    /// <summary>Where there are more mixtures than these, many differ by less than an eye sees.</summary>
    public const int MostMixtures = 400;

    // Rounding of a lightness.
    private const double SameLightness = 1e-9;

    /// <summary>Finds it: no step darker than the one before, least uneven; of fewer steps where so many do not exist.</summary>
    /// <param name="path">The path.</param>
    /// <param name="view">How it is looked at.</param>
    /// <param name="options">What it should be like; the number of steps is <paramref name="steps"/>.</param>
    /// <param name="kept">Places of the recipes of the path that must be steps, rising.</param>
    /// <param name="measure">How steps are measured.</param>
    /// <param name="steps">Steps, both ends counted.</param>
    /// <param name="cancellation">Ends the work.</param>
    public static WholeDropRamp On(RampPath path, View view, RampOptions options, IReadOnlyList<int> kept, StepMeasure measure, int steps, CancellationToken cancellation)
    {
        var countable = Countable(path, view, measure, options.Drops, kept);
        var (mixtures, spacing) = Thinned(countable, measure);

        // All steps that climb and pass over nothing that is kept, with their differences.
        cancellation.ThrowIfCancellationRequested();
        var edges = new List<(int From, int To, double Difference)>();
        for (var from = 0; from < mixtures.Count; from++)
        {
            cancellation.ThrowIfCancellationRequested();
            for (var to = from + 1; to < mixtures.Count; to++)
            {
                if (mixtures[to].Lightness >= mixtures[from].Lightness - SameLightness)
                {
                    edges.Add((from, to, measure.Between(mixtures[from].Coordinates, mixtures[to].Coordinates)));
                }

                if (mixtures[to].Kept)
                {
                    break;
                }
            }
        }

        // Where the ends need not be exact, the ramp may begin and end up to half a mean step inside.
        var half = options.KeepEnds ? 0 : measure.BetweenColors(path.LabAt(0), path.LabAt(path.End)) / (steps - 1) / 2;
        bool[] Near(double position, int end) =>
            [.. mixtures.Select((mixture, i) => i == end || (half > 0 && measure.Between(mixture.Coordinates, measure.Coordinates(path.LabAt(position))) <= half))];
        var search = new Search(
            edges, [.. mixtures.Select(mixture => (int)mixture.Recipe.Total)], Near(0, 0), Near(path.End, mixtures.Count - 1), options, cancellation);
        var (chain, within) = search.Best(steps, Math.Min(RampOptions.MostSteps, mixtures.Count));
        return new WholeDropRamp([.. chain.Select(i => mixtures[i].Recipe)], countable.Count, spacing, within);
    }

    private sealed record Mixture(Recipe Recipe, bool Kept, double Lightness, Lab Coordinates);

    // All of them in the order of the path. What is kept is there however many drops it takes.
    private static List<Mixture> Countable(RampPath path, View view, StepMeasure measure, int most, IReadOnlyList<int> kept)
    {
        var mixtures = new List<Mixture>();
        void Add(Recipe recipe, bool isKept)
        {
            var lab = Prediction.LabOf(recipe, view);
            mixtures.Add(new Mixture(recipe, isKept, lab.L, measure.Coordinates(lab)));
        }

        for (var node = 0; node < path.Nodes.Count; node++)
        {
            if (kept.Contains(node))
            {
                Add(path.Nodes[node].InWholeDropsIfCountable(), true);
            }
            else if (WholeParts.Of(path.Nodes[node])?.Sum() <= most)
            {
                Add(path.Nodes[node].InWholeDrops(), false);
            }

            foreach (var (_, recipe) in node < path.Legs.Count ? path.Legs[node].WholeDrops(most) : [])
            {
                Add(recipe, false);
            }
        }

        return mixtures;
    }

    // The simplest first, each that differs enough from its neighbours on the way; beside a strong tinter many drops make a visible difference.
    private static (IReadOnlyList<Mixture> Mixtures, double Spacing) Thinned(IReadOnlyList<Mixture> all, StepMeasure measure)
    {
        if (all.Count <= MostMixtures)
        {
            return (all, 0);
        }

        int[] simplestFirst = [.. Enumerable.Range(0, all.Count).OrderBy(i => all[i].Kept ? 0 : all[i].Recipe.Total).ThenBy(i => i)];
        for (var spacing = 0.05; ; spacing *= 1.5)
        {
            var places = new List<int>();
            bool Far(int neighbour, int place) =>
                neighbour < 0 || neighbour >= places.Count || measure.Between(all[places[neighbour]].Coordinates, all[place].Coordinates) >= spacing;
            foreach (var place in simplestFirst)
            {
                var at = ~places.BinarySearch(place);
                if (all[place].Kept || (Far(at - 1, place) && Far(at, place)))
                {
                    places.Insert(at, place);
                }

                if (places.Count > MostMixtures)
                {
                    break;
                }
            }

            if (places.Count <= MostMixtures)
            {
                return ([.. places.Select(i => all[i])], spacing);
            }
        }
    }

    /// <summary>Asks for the number of steps wanted, and where it cannot be had, for the nearest that can.</summary>
    private sealed class Search(
        List<(int From, int To, double Difference)> edges, int[] drops, bool[] starts, bool[] ends, RampOptions options, CancellationToken cancellation)
    {
        public (int[] Chain, bool WithinLimits) Best(int steps, int most)
        {
            // Within the limits: the number asked for, then one fewer, one more, and so on; where it is to be found, the fewest.
            if (options.SmallestStep is not null || options.LargestStep is not null)
            {
                var limited = new LeastUneven(edges.Where(edge => options.Allows(edge.Difference)), drops, starts, ends, cancellation);
                var counts = limited.Reachable(most - 1).Select(step => step + 1);
                if ((options.FewestSteps ? counts : counts.OrderBy(count => Math.Abs(count - steps))).Cast<int?>().FirstOrDefault() is { } count)
                {
                    return (limited.Chain(options.Weights(count - 1))!, true);
                }
            }

            // Without limits: as many as asked for, or the most there are.
            var free = new LeastUneven(edges, drops, starts, ends, cancellation);
            return free.Reachable(Math.Min(steps, most) - 1).Cast<int?>().LastOrDefault() is { } longest
                ? (free.Chain(options.Weights(longest))!, options.SmallestStep is null && options.LargestStep is null)
                : throw new ArgumentException($"No two mixtures on this way can be counted in at most {options.Drops} drops; allow more.");
        }
    }
}
