namespace MixEngine.Core;

/// <summary>
/// Finds, among mixtures in the order of a path, the chain of so many steps from the first to the last whose step sizes are least uneven.
/// </summary>
/// <remarks>
/// The unevenness of steps e of sum A = Σe and B = Σe² is √(m·B/A² - 1). A chain that minimises B/A² also minimises Σ(e - τ)² for τ = B/A:
/// with x = A'/A of any other chain, B' - 2τA' ≥ B(x² - 2x) ≥ -B = B - 2τA. So it is a corner of the convex hull of all (A, B), and
/// all such corners are found by asking, for one τ after the other, for the chain of least Σ(e - τ)² (dynamic programming), where the next τ is
/// the one at which two neighbouring corners tie (Eisner and Severance's method for a parametric shortest path). The answer is exact.
/// </remarks>
internal sealed class LeastUneven
{
    private readonly double[,] _difference;
    private readonly int[] _drops;
    private readonly Func<int, int, int, bool> _allowed;
    private readonly CancellationToken _cancellation;

    /// <summary>Takes the pairwise differences of the mixtures and their drops.</summary>
    /// <param name="difference">Difference of mixture i from mixture j, for i &lt; j.</param>
    /// <param name="drops">Drops of each; among equally even chains the one of fewer drops wins, then the one that leaves the dark end sooner.</param>
    /// <param name="allowed">Whether step number k may lead from mixture i to mixture j.</param>
    /// <param name="cancellation">Ends the work.</param>
    public LeastUneven(double[,] difference, int[] drops, Func<int, int, int, bool> allowed, CancellationToken cancellation) =>
        (_difference, _drops, _allowed, _cancellation) = (difference, drops, allowed, cancellation);

    /// <summary>The best chain of as many steps as there are weights, as indices from the first mixture to the last; null where there is none.</summary>
    /// <param name="weights">The size of each step relative to the others.</param>
    public int[]? Chain(IReadOnlyList<double> weights)
    {
        var edges = Edges(weights);
        if (Cheapest(edges, weights, 0) is not { } shortest)
        {
            return null;
        }

        var largest = 0.0;
        foreach (var difference in _difference)
        {
            largest = Math.Max(largest, difference);
        }

        var longest = Cheapest(edges, weights, largest / weights.Min() + 1)!;
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
            var between = Cheapest(edges, weights, τ)!;
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

    // Step by step, the mixtures from which each mixture can be reached.
    private List<(int From, int To)>[] Edges(IReadOnlyList<double> weights)
    {
        var count = _drops.Length;
        var steps = weights.Count;
        var edges = new List<(int From, int To)>[steps];
        for (var k = 0; k < steps; k++)
        {
            _cancellation.ThrowIfCancellationRequested();
            edges[k] = [];
            for (var to = k == steps - 1 ? count - 1 : k + 1; to < (k == steps - 1 ? count : count - (steps - 1 - k)); to++)
            {
                for (var from = k; from < (k == 0 ? 1 : to); from++)
                {
                    if (_allowed(k, from, to))
                    {
                        edges[k].Add((from, to));
                    }
                }
            }
        }

        return edges;
    }

    /// <summary>The chain of least Σ(e - τ)², ties by fewer drops.</summary>
    private Corner? Cheapest(List<(int From, int To)>[] edges, IReadOnlyList<double> weights, double τ)
    {
        var count = _drops.Length;
        var cost = new double[count];
        var drops = new int[count];
        Array.Fill(cost, double.PositiveInfinity);
        (cost[0], drops[0]) = (0, _drops[0]);
        var came = new int[edges.Length, count];
        for (var k = 0; k < edges.Length; k++)
        {
            _cancellation.ThrowIfCancellationRequested();
            var nextCost = new double[count];
            var nextDrops = new int[count];
            Array.Fill(nextCost, double.PositiveInfinity);
            foreach (var (from, to) in edges[k])
            {
                var off = _difference[from, to] / weights[k] - τ;
                var reached = cost[from] + off * off;
                if (reached < nextCost[to] || (reached == nextCost[to] && drops[from] + _drops[to] < nextDrops[to]))
                {
                    (nextCost[to], nextDrops[to], came[k, to]) = (reached, drops[from] + _drops[to], from);
                }
            }

            (cost, drops) = (nextCost, nextDrops);
        }

        if (double.IsInfinity(cost[count - 1]))
        {
            return null;
        }

        // Walk back from the end.
        var indices = new int[edges.Length + 1];
        indices[^1] = count - 1;
        var (sum, squares) = (0.0, 0.0);
        for (var k = edges.Length - 1; k >= 0; k--)
        {
            indices[k] = came[k, indices[k + 1]];
            var step = _difference[indices[k], indices[k + 1]] / weights[k];
            (sum, squares) = (sum + step, squares + step * step);
        }

        return new Corner(indices, sum, squares, drops[count - 1]);
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
