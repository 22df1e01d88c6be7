namespace MixEngine.Core;

/// <summary>Positions on a path whose neighbouring differences are equal, or in given proportions: the ramp if drops could be divided.</summary>
/// <param name="Positions">From the dark end to the light end.</param>
/// <param name="Sizes">Size of each step divided by its weight.</param>
/// <param name="Reason">Why the steps are not even to within 1 %, in plain words; null where they are.</param>
internal sealed record EvenSteps(IReadOnlyList<double> Positions, IReadOnlyList<double> Sizes, string? Reason)
{
    /// <summary>Deviation from their mean up to which steps count as even.</summary>
    public const double Tolerance = 0.01;

    // Places of the table among which a first answer is looked for, where the simple way fails.
    private const int Coarse = 80;

    private const string Leap = "some mixtures on this way are darker than what comes before them or lighter than the end; they are left out, and the ramp leaps there.";
    private const string Turn = "the colour doubles back on this way, and no even steps were found.";
    private const string TooFew = "so many steps do not exist: most mixtures on this way are darker than its dark end or lighter than its light end.";
    private const string KeptNodes = "between recipes that are to be kept only a whole number of steps fits.";

    /// <summary>The mean step, for a weight of 1.</summary>
    public double Step => Sizes.Average();

    /// <summary>Largest deviation of a step from the mean, relative to it, 0 or more.</summary>
    public double WorstDeviation => Step > 0 ? Sizes.Max(size => Math.Abs(size / Step - 1)) : 0;

    /// <summary>Solves for the positions of one step more than there are weights.</summary>
    /// <param name="table">The path's colours.</param>
    /// <param name="kept">Positions that must be steps, both ends among them, rising.</param>
    /// <param name="weights">The size of each step relative to the others.</param>
    /// <param name="thorough">Whether to go on where the simple way fails; not while only the size of the steps is wanted.</param>
    /// <param name="cancellation">Ends the work.</param>
    public static EvenSteps On(ClimbTable table, IReadOnlyList<double> kept, IReadOnlyList<double> weights, bool thorough, CancellationToken cancellation)
    {
        if (kept.Count == 2)
        {
            return Between(table.Climb(kept[0], kept[1]), weights, thorough, cancellation);
        }

        // Between recipes that are kept only whole steps fit: give each further step to the stretch whose steps are largest.
        var stretches = kept.Zip(kept.Skip(1), table.Climb).ToArray();
        var counts = Enumerable.Repeat(1, stretches.Length).ToArray();
        var solved = new Dictionary<(int Stretch, int First, int Count), EvenSteps>();
        double[] WeightsOf(int stretch) => [.. weights.Skip(counts.Take(stretch).Sum()).Take(counts[stretch])];
        EvenSteps[] Solved() =>
        [
            .. stretches.Select((climb, i) =>
            {
                var key = (i, First: counts.Take(i).Sum(), counts[i]);
                return solved.TryGetValue(key, out var known) ? known : solved[key] = Between(climb, WeightsOf(i), false, cancellation);
            }),
        ];
        var best = Solved();
        for (var left = weights.Count - stretches.Length; left > 0; left--)
        {
            counts[Array.IndexOf(best, best.MaxBy(stretch => stretch.Step))]++;
            best = Solved();
        }

        best = [.. best.Select((stretch, i) => thorough && stretch.Reason is not null ? Between(stretches[i], WeightsOf(i), true, cancellation) : stretch)];
        double[] sizes = [.. best.SelectMany(stretch => stretch.Sizes)];
        var together = new EvenSteps([kept[0], .. best.SelectMany(stretch => stretch.Positions.Skip(1))], sizes, null);
        return together with { Reason = best.Select(stretch => stretch.Reason).FirstOrDefault(reason => reason is not null) ?? (together.WorstDeviation > Tolerance ? KeptNodes : null) };
    }

    private static EvenSteps Between(Climb climb, IReadOnlyList<double> weights, bool thorough, CancellationToken cancellation)
    {
        // Shoot: a small step leaves a large rest for the last one, a large step overshoots the end.
        var (low, high) = (0.0, climb.Farthest() / weights.Min());
        for (var i = 0; i < 60 && high - low > 1e-9 * high; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            var middle = (low + high) / 2;
            (low, high) = climb.March(middle, weights) is { } marched && climb.ToEnd(marched[^1]) >= middle * weights[^1] ? (middle, high) : (low, middle);
        }

        // Where the climb leaps from end to end there is nothing to step on.
        if (climb.March(low, weights) is not { } found)
        {
            return Between(climb, [.. weights.Take(weights.Count - 1)], thorough, cancellation) with { Reason = TooFew };
        }

        var solution = Measured(climb, [.. found, climb.End], weights);
        if (solution.WorstDeviation <= Tolerance)
        {
            return solution;
        }

        // Where the way doubles back, the first place that is far enough is not always the right one: ask all at once, coarsely, and go on from there.
        var places = climb.Thinned(Coarse);
        var search = !thorough ? null : LeastUneven.Among([.. places.Select(climb.CoordinatesOf)], climb.Measure, cancellation);
        if (search?.Chain(weights) is { } chain)
        {
            IReadOnlyList<Climb.Place> start = [.. chain.Select(i => places[i])];
            var other = Measured(climb, climb.Leaps ? start : EqualChords.From(climb, start, weights), weights);
            solution = Unevenness.Of(other.Sizes) < Unevenness.Of(solution.Sizes) ? other : solution;
        }

        return solution.WorstDeviation <= Tolerance ? solution : solution with { Reason = climb.Leaps ? Leap : Turn };
    }

    private static EvenSteps Measured(Climb climb, IReadOnlyList<Climb.Place> places, IReadOnlyList<double> weights)
    {
        double[] positions = [.. places.Select(climb.PositionOf)];
        var coordinates = positions.Select(climb.CoordinatesAt).ToArray();
        return new EvenSteps(positions, [.. weights.Select((weight, i) => climb.Measure.Between(coordinates[i], coordinates[i + 1]) / weight)], null);
    }
}
