using MathNet.Numerics.LinearAlgebra;

namespace MixEngine.Core;

/// <summary>
/// Least squares over shares: the c with cᵢ ≥ 0 and Σcᵢ = 1 that brings Σcᵢaᵢ nearest to b.
/// </summary>
/// <remarks>
/// Since the shares add up to one, Σcᵢaᵢ - b = Σcᵢ(aᵢ - b): the answer is the point of the convex hull of the aᵢ - b nearest to
/// the origin, found by the active-set method of [Wolfe1976]. It ends after finitely many steps, also with equal or nearly
/// parallel columns, and keeps few columns active.
/// </remarks>
public static class SimplexLeastSquares
{
    private const int MostSteps = 1000;

    /// <summary>Solves for the shares.</summary>
    /// <param name="columns">One or more aᵢ, all as long as <paramref name="b"/>.</param>
    /// <param name="b">What is to be approached.</param>
    public static SharesFound Solve(IReadOnlyList<Vector<double>> columns, Vector<double> b)
    {
        if (columns.Count == 0)
        {
            throw new ArgumentException("At least one column is needed.", nameof(columns));
        }

        var points = columns.Select(column => column - b).ToArray();
        var largest = points.Max(point => point.DotProduct(point));
        var tolerance = 1e-13 * largest;

        // Start from the point nearest to the origin; ties go to the first.
        var first = 0;
        for (var i = 1; i < points.Length; i++)
        {
            if (points[i].DotProduct(points[i]) < points[first].DotProduct(points[first]))
            {
                first = i;
            }
        }

        List<int> active = [first];
        List<double> shares = [1];
        var x = points[first];
        for (var step = 0; step < MostSteps; step++)
        {
            // The point furthest towards the origin as seen from x: none is beyond x, then x is the nearest.
            var furthest = 0;
            for (var i = 1; i < points.Length; i++)
            {
                if (x.DotProduct(points[i]) < x.DotProduct(points[furthest]))
                {
                    furthest = i;
                }
            }

            if (x.DotProduct(points[furthest]) >= x.DotProduct(x) - tolerance || active.Contains(furthest))
            {
                return Found(columns.Count, active, shares, x, converged: true);
            }

            var (activeBefore, sharesBefore) = (active.ToList(), shares.ToList());
            active.Add(furthest);
            shares.Add(0);
            MoveToNearestOfActive(points, active, shares);
            var next = Combine(points, active, shares);

            // Each step comes nearer to the origin [Wolfe1976]; where one does not, only rounding is left to gain.
            if (next.DotProduct(next) >= x.DotProduct(x))
            {
                return Found(columns.Count, activeBefore, sharesBefore, x, converged: true);
            }

            x = next;
        }

        return Found(columns.Count, active, shares, x, converged: false);
    }

    // Go to the nearest point of the affine hull; where that leaves the convex hull, stop at its border and drop what is used up.
    private static void MoveToNearestOfActive(Vector<double>[] points, List<int> active, List<double> shares)
    {
        while (true)
        {
            var aim = NearestOfAffineHull(points, active);
            var stop = 1.0;
            for (var i = 0; i < active.Count; i++)
            {
                if (aim[i] <= 0)
                {
                    stop = Math.Min(stop, shares[i] / (shares[i] - aim[i]));
                }
            }

            stop = double.IsFinite(stop) ? Math.Clamp(stop, 0, 1) : 0;
            for (var i = 0; i < active.Count; i++)
            {
                shares[i] += stop * (aim[i] - shares[i]);
            }

            // Rounding must not keep a column that the border has reached.
            var least = shares.IndexOf(shares.Min());
            var outside = aim.Any(share => share <= 0);
            for (var i = active.Count - 1; i >= 0; i--)
            {
                if (active.Count > 1 && (shares[i] <= 1e-15 || (outside && i == least)))
                {
                    active.RemoveAt(i);
                    shares.RemoveAt(i);
                }
            }

            var sum = shares.Sum();
            for (var i = 0; i < shares.Count; i++)
            {
                shares[i] /= sum;
            }

            if (!outside || active.Count == 1)
            {
                return;
            }
        }
    }

    // Minimise |p₀ + Σtᵢ(pᵢ - p₀)| over t; then u = (1 - Σt, t). Solved on the differences themselves: normal equations would square
    // their condition, and nearly parallel columns are common. The pseudo-inverse keeps equal columns harmless.
    private static double[] NearestOfAffineHull(Vector<double>[] points, List<int> active)
    {
        if (active.Count == 1)
        {
            return [1];
        }

        var origin = points[active[0]];
        var differences = Matrix<double>.Build.DenseOfColumnVectors(active.Skip(1).Select(i => points[i] - origin));
        var t = differences.PseudoInverse() * -origin;
        return [1 - t.Sum(), .. t];
    }

    private static Vector<double> Combine(Vector<double>[] points, List<int> active, List<double> shares)
    {
        var x = points[active[0]] * shares[0];
        for (var i = 1; i < active.Count; i++)
        {
            x += points[active[i]] * shares[i];
        }

        return x;
    }

    private static SharesFound Found(int count, List<int> active, List<double> shares, Vector<double> x, bool converged)
    {
        var all = new double[count];
        for (var i = 0; i < active.Count; i++)
        {
            all[active[i]] += shares[i];
        }

        return new SharesFound(all, x.L2Norm(), converged);
    }
}

/// <summary>What least squares over shares found.</summary>
/// <param name="Shares">One share a column, 0 or more, adding up to 1.</param>
/// <param name="Residual">Distance that is left.</param>
/// <param name="Converged">Whether nothing is nearer; false only when the steps ran out, the shares being the best so far.</param>
public sealed record SharesFound(double[] Shares, double Residual, bool Converged);
