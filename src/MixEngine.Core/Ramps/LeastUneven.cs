using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// Finds, among mixtures in the order of a path, the chain of so many steps from end to end whose step sizes are least uneven.
/// </summary>
/// <remarks>
/// The unevenness of steps e of sum A = Σe and B = Σe² is √(m·B/A² - 1). A chain that minimises B/A² also minimises Σ(e - τ)² for τ = B/A:
/// with x = A'/A of any other chain, B' - 2τA' ≥ B(x² - 2x) ≥ -B = B - 2τA. So it is a corner of the convex hull of all (A, B), and
/// all such corners are found by asking, for one τ after the other, for the chain of least Σ(e - τ)² (dynamic programming), where the next τ is
/// the one at which two neighbouring corners tie [EisnerSeverance1976]. The answer is exact.
/// </remarks>
internal sealed class LeastUneven
{
    private readonly (int From, int To, double Difference)[] _edges;
    private readonly int[] _drops;
    private readonly bool[] _starts;
    private readonly bool[] _ends;
    private readonly CancellationToken _cancellation;

    /// <summary>Takes the steps that may be made.</summary>
    /// <param name="edges">From which mixture to which later one, and their difference.</param>
    /// <param name="drops">Drops of each mixture; among equally even chains the one of fewer drops wins.</param>
    /// <param name="starts">Where a chain may begin.</param>
    /// <param name="ends">Where a chain may end.</param>
    /// <param name="cancellation">Ends the work.</param>
    public LeastUneven(IEnumerable<(int From, int To, double Difference)> edges, int[] drops, bool[] starts, bool[] ends, CancellationToken cancellation) =>
        (_edges, _drops, _starts, _ends, _cancellation) = ([.. edges], drops, starts, ends, cancellation);

    /// <summary>Takes colours of which each may follow each earlier one, from the first to the last.</summary>
    public static LeastUneven Among(IReadOnlyList<Lab> coordinates, StepMeasure measure, CancellationToken cancellation)
    {
        var (count, last) = (coordinates.Count, coordinates.Count - 1);
        var edges =
            from start in Enumerable.Range(0, count)
            from end in Enumerable.Range(start + 1, last - start)
            select (start, end, measure.Between(coordinates[start], coordinates[end]));
        return new LeastUneven(
            edges, new int[count], [.. Enumerable.Range(0, count).Select(i => i == 0)], [.. Enumerable.Range(0, count).Select(i => i == last)], cancellation);
    }

    /// <summary>The numbers of steps, from 1 to so many, in which the end can be reached.</summary>
    public IReadOnlyList<int> Reachable(int most)
    {
        var found = new List<int>();
        var here = (bool[])_starts.Clone();
        for (var steps = 1; steps <= most && here.Any(reached => reached); steps++)
        {
            _cancellation.ThrowIfCancellationRequested();
            var next = new bool[here.Length];
            foreach (var (from, to, _) in _edges)
            {
                next[to] |= here[from];
            }

            here = next;
            if (here.Zip(_ends).Any(place => place.First && place.Second))
            {
                found.Add(steps);
            }
        }

        return found;
    }

    /// <summary>The best chain of as many steps as there are weights, as indices of mixtures; null where there is none.</summary>
    /// <param name="weights">The size of each step relative to the others.</param>
    public int[]? Chain(IReadOnlyList<double> weights)
    {
        if (Cheapest(weights, 0) is not { } shortest)
        {
            return null;
        }

        var longest = Cheapest(weights, _edges.Max(edge => edge.Difference) / weights.Min() + 1)!;
        var best = Better(shortest, longest);
        Between(shortest, longest);
        return best.Indices;

        void Between(Corner one, Corner other)
        {
            // Neighbouring corners tie at this τ; a chain that does better there is a corner between them.
            if (!(other.Sum - one.Sum > 1e-12 * other.Sum))
            {
                return;
            }

            var τ = (other.SumOfSquares - one.SumOfSquares) / (2 * (other.Sum - one.Sum));
            var between = Cheapest(weights, τ)!;
            var tie = one.SumOfSquares - 2 * τ * one.Sum;
            if (between.SumOfSquares - 2 * τ * between.Sum >= tie - 1e-10 * (1 + Math.Abs(tie)))
            {
                return;
            }

            best = Better(best, between);
            Between(one, between);
            Between(between, other);
        }
    }

    /// <summary>The chain of least Σ(e - τ)², ties by fewer drops.</summary>
    private Corner? Cheapest(IReadOnlyList<double> weights, double τ)
    {
        var (count, steps) = (_drops.Length, weights.Count);
        var cost = new double[count];
        var drops = (int[])_drops.Clone();
        for (var i = 0; i < count; i++)
        {
            cost[i] = _starts[i] ? 0 : double.PositiveInfinity;
        }

        var by = new int[steps, count];
        for (var k = 0; k < steps; k++)
        {
            _cancellation.ThrowIfCancellationRequested();
            var nextCost = new double[count];
            var nextDrops = new int[count];
            Array.Fill(nextCost, double.PositiveInfinity);
            for (var e = 0; e < _edges.Length; e++)
            {
                var (from, to, difference) = _edges[e];
                var off = difference / weights[k] - τ;
                var reached = cost[from] + off * off;
                if (reached < nextCost[to] || (reached == nextCost[to] && drops[from] + _drops[to] < nextDrops[to]))
                {
                    (nextCost[to], nextDrops[to], by[k, to]) = (reached, drops[from] + _drops[to], e);
                }
            }

            (cost, drops) = (nextCost, nextDrops);
        }

        var end = -1;
        for (var i = 0; i < count; i++)
        {
            if (_ends[i] && !double.IsInfinity(cost[i]) && (end < 0 || cost[i] < cost[end] || (cost[i] == cost[end] && drops[i] < drops[end])))
            {
                end = i;
            }
        }

        if (end < 0)
        {
            return null;
        }

        // Walk back from the end.
        var indices = new int[steps + 1];
        indices[^1] = end;
        var (sum, squares) = (0.0, 0.0);
        for (var k = steps - 1; k >= 0; k--)
        {
            var edge = _edges[by[k, indices[k + 1]]];
            var step = edge.Difference / weights[k];
            (indices[k], sum, squares) = (edge.From, sum + step, squares + step * step);
        }

        return new Corner(indices, sum, squares, drops[end]);
    }

    private static Corner Better(Corner one, Corner other)
    {
        var (u, v) = (one.Ratio, other.Ratio);
        return Math.Abs(u - v) <= 1e-12 * u ? (other.Drops < one.Drops ? other : one) : v < u ? other : one;
    }

    private sealed record Corner(int[] Indices, double Sum, double SumOfSquares, int Drops)
    {
        /// <summary>B/A²: rises and falls with the unevenness.</summary>
        public double Ratio => Sum > 0 ? SumOfSquares / (Sum * Sum) : 0;
    }
}
