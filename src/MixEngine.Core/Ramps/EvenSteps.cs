namespace MixEngine.Core;

/// <summary>Positions on a path whose neighbouring differences are equal, or in given proportions: the ramp if drops could be divided.</summary>
/// <param name="Positions">From the dark end to the light end.</param>
/// <param name="Step">The even step, for a weight of 1.</param>
/// <param name="WorstDeviation">Largest deviation of a step from its share, relative to it, 0 or more.</param>
/// <param name="Reason">Why the steps are not even to within 1 %, in plain words; null where they are.</param>
internal sealed record EvenSteps(IReadOnlyList<double> Positions, double Step, double WorstDeviation, string? Reason)
{
    /// <summary>Deviation up to which steps count as even.</summary>
    public const double Tolerance = 0.01;

    /// <summary>Spacing of the table on which the steps are solved, in CIELAB: below what an eye sees, and fine enough for straight lines between.</summary>
    private const double Spacing = 0.25;

    /// <summary>Solves for the positions.</summary>
    /// <param name="path">The path.</param>
    /// <param name="measure">How steps are measured.</param>
    /// <param name="weights">The size of each step relative to the others, one fewer than there are positions.</param>
    /// <param name="cancellation">Ends the work.</param>
    public static EvenSteps On(RampPath path, StepMeasure measure, IReadOnlyList<double> weights, CancellationToken cancellation)
    {
        var climb = Climb.Of(path.Sampled(Spacing), measure);

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
            return On(path, measure, [.. weights.Take(weights.Count - 1)], cancellation) with
            {
                Reason = "so many steps do not exist: most mixtures on this way are darker than its dark end or lighter than its light end.",
            };
        }

        double[] positions = [.. found.Select(climb.PositionOf), path.End];
        var labs = positions.Select(position => measure.Coordinates(path.LabAt(position))).ToArray();
        var sizes = weights.Select((weight, i) => measure.Between(labs[i], labs[i + 1]) / weight).ToArray();
        var mean = sizes.Average();
        var worst = mean > 0 ? sizes.Max(size => Math.Abs(size / mean - 1)) : 0;
        return new EvenSteps(positions, mean, worst, worst <= Tolerance ? null : climb.Leaps
            ? "on this way some mixtures are darker than what comes before them or lighter than the end; they are left out, and what remains leaps there."
            : "the colour turns so sharply on this way that no even steps exist.");
    }
}
