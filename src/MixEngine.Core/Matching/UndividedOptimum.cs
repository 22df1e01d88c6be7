using MathNet.Numerics.LinearAlgebra;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// The best amounts of given paints when drops may be divided: least squares on the spectrum to start from, then Newton's method on
/// CIEDE2000 itself, each step a least-squares problem over shares (<see cref="SimplexLeastSquares"/>).
/// </summary>
/// <remarks>
/// The amounts are shares of corners. Without a base on the palette a corner is one drop of a paint; with one, the base alone and the base
/// with all drops that may be added of one paint.
/// </remarks>
internal sealed class UndividedOptimum
{
    private const int MostSteps = 40;

    private readonly SearchScope _scope;
    private readonly int[] _places;
    private readonly double[][] _corners;

    public UndividedOptimum(SearchScope scope, int[] places, int mostDrops)
    {
        (_scope, _places) = (scope, places);
        var alone = places.Select((_, i) => places.Select((_, j) => i == j ? (scope.OnBase ? mostDrops : 1.0) : 0).ToArray());
        _corners = [.. alone, .. scope.OnBase ? [new double[places.Length]] : Array.Empty<double[]>()];
    }

    /// <summary>Finds the amounts in drops, and the difference they leave.</summary>
    /// <param name="candidate">A recipe of the same paints; the answer is never worse.</param>
    /// <param name="target">The target.</param>
    public (double[] Drops, double Difference) Find(Candidate candidate, MatchTarget target)
    {
        // Start where the spectra agree best, from one corner alone, or from the recipe in whole drops.
        var starts = _corners.Select((_, i) => _corners.Select((_, j) => i == j ? 1.0 : 0).ToArray())
            .Prepend(SpectralStart(target))
            .Append(SharesOf(candidate));
        var (shares, difference) = starts.Select(start => (start, Difference(start))).MinBy(one => one.Item2);

        // Step to the minimum of the local parabola of dE², as far as that helps.
        for (var step = 0; step < MostSteps && _corners.Length > 1 && difference > 1e-9; step++)
        {
            var (better, smaller) = Shorten(shares, NewtonStep(shares), difference);
            if (!(smaller < difference * (1 - 1e-9)))
            {
                break;
            }

            (shares, difference) = (better, smaller);
        }

        // The worst of several lights has edges where parabolas mislead: shift a little from one corner to another as long as that helps.
        if (_scope.Objective.Lights.Length > 1)
        {
            (shares, difference) = Shift(shares, difference);
        }

        return (DropsOf(shares), difference);
    }

    private double[] DropsOf(double[] shares) =>
        [.. _places.Select((_, i) => shares.Zip(_corners, (share, corner) => share * corner[i]).Sum())];

    private double[] SharesOf(Candidate candidate)
    {
        var drops = _places.Select(place => Enumerable.Range(0, candidate.Paints).Where(i => candidate[i].Place == place).Sum(i => (double)candidate[i].Drops)).ToArray();
        var shares = drops.Select((amount, i) => _scope.OnBase ? amount / _corners[i][i] : amount / drops.Sum()).ToArray();
        return _scope.OnBase ? [.. shares, 1 - shares.Sum()] : shares;
    }

    private double Difference(double[] shares)
    {
        // Medium alone has no colour.
        if (!(_scope.Shelf.StartPigmented + DropsOf(shares).Zip(_places, (drops, place) => drops * _scope.Shelf.Pigmented(place)).Sum() > 1e-9))
        {
            return double.PositiveInfinity;
        }

        Span<double> seen = stackalloc double[SpectralGrid.Bands];
        _scope.Shelf.Reflect(_places, DropsOf(shares), seen);
        return _scope.Objective.DifferenceOf(seen);
    }

    private Lab ColorOf(double[] shares, ObjectiveLight light)
    {
        Span<double> seen = stackalloc double[SpectralGrid.Bands];
        _scope.Shelf.Reflect(_places, DropsOf(shares), seen);
        return Lab.FromXyz(light.Weights.ToXyz(seen), light.Weights.White);
    }

    // The mixture has the target's q = K/S where Σcᵢ(Kᵢ - qSᵢ) = 0; each band counts as much as it changes X, Y and Z.
    private double[] SpectralStart(MatchTarget target)
    {
        var weights = _scope.Objective.Lights[0].Weights;
        var surface = new SurfaceReflection(0);
        var q = new double[SpectralGrid.Bands];
        var importance = new double[SpectralGrid.Bands];
        for (var band = 0; band < q.Length; band++)
        {
            var inside = Math.Clamp(surface.ToInternal(target.Reflectance[band]), SurfaceReflection.DarkestInternal, SurfaceReflection.BrightestInternal);
            q[band] = KubelkaMunk.AbsorptionToScattering(inside);

            // dq/dR = (R² - 1) / (2R²); light leaves the surface with the slope dRm/dRi.
            var perRatio = 2 * inside * inside / (1 - inside * inside) * surface.Slope(inside);
            var (x, y, z) = (weights.X[band], weights.Y[band], weights.Z[band]);
            importance[band] = Math.Sqrt(x * x + y * y + z * z) * perRatio;
        }

        var shelf = _scope.Shelf;
        var columns = _corners.Select(corner => Vector<double>.Build.Dense(q.Length, band =>
        {
            var (k, s) = (shelf.StartK[band], shelf.StartS[band]);
            for (var i = 0; i < _places.Length; i++)
            {
                k += corner[i] * shelf.K(_places[i])[band];
                s += corner[i] * shelf.S(_places[i])[band];
            }

            return importance[band] * (k - q[band] * s);
        })).ToArray();
        return SimplexLeastSquares.Solve(columns, Vector<double>.Build.Dense(q.Length)).Shares;
    }

    private double[] NewtonStep(double[] shares)
    {
        // dE² of each light around here as half·xᵀHx + gx; with H = UᵀU its minimum over shares is least squares in Ux.
        var rows = new List<Matrix<double>>();
        var goals = new List<double>();
        foreach (var light in _scope.Objective.Lights)
        {
            var here = ColorOf(shares, light);
            var (gradient, hessian) = Parabola(light.Aim, here);
            var upper = hessian.Cholesky().Factor.Transpose() * Math.Sqrt(light.Share);
            var whitened = upper * Slopes(shares, light, here);
            rows.Add(whitened);
            goals.AddRange(whitened * Vector<double>.Build.Dense(shares) - upper.Transpose().Solve(gradient * light.Share));
        }

        var stacked = rows.Aggregate((above, below) => above.Stack(below));
        return SimplexLeastSquares.Solve([.. stacked.EnumerateColumns()], Vector<double>.Build.DenseOfEnumerable(goals)).Shares;
    }

    // How Lab answers each share, all others staying.
    private Matrix<double> Slopes(double[] shares, ObjectiveLight light, Lab here)
    {
        const double grow = 1e-6;
        return Matrix<double>.Build.DenseOfColumns(shares.Select((_, i) =>
        {
            var more = (double[])shares.Clone();
            more[i] += grow;
            var there = ColorOf(more, light);
            return new[] { (there.L - here.L) / grow, (there.A - here.A) / grow, (there.B - here.B) / grow };
        }));
    }

    // Gradient and a positive definite Hessian of dE² from differences over steps far below what an eye sees.
    private static (Vector<double> Gradient, Matrix<double> Hessian) Parabola(Lab aim, Lab here)
    {
        const double step = 1e-3;
        double Square(double l, double a, double b)
        {
            var e = DeltaE2000.Between(aim, new Lab(here.L + l, here.A + a, here.B + b));
            return e * e;
        }

        double At(int i, double si, int j, double sj)
        {
            Span<double> move = [0, 0, 0];
            move[i] += si;
            move[j] += sj;
            return Square(move[0], move[1], move[2]);
        }

        var center = Square(0, 0, 0);
        var gradient = Vector<double>.Build.Dense(3, i => (At(i, step, i, 0) - At(i, -step, i, 0)) / (2 * step));
        var hessian = Matrix<double>.Build.Dense(3, 3, (i, j) => i == j
            ? (At(i, step, i, 0) - 2 * center + At(i, -step, i, 0)) / (step * step)
            : (At(i, step, j, step) - At(i, step, j, -step) - At(i, -step, j, step) + At(i, -step, j, -step)) / (4 * step * step));

        // Far away CIEDE2000 is not convex everywhere: lift the curvature until it is.
        var lowest = hessian.Evd(Symmetricity.Symmetric).EigenValues.Real().Minimum();
        return (gradient, lowest > 1e-3 ? hessian : hessian + Matrix<double>.Build.DenseIdentity(3) * (1e-2 - lowest));
    }

    private (double[] Shares, double Difference) Shorten(double[] from, double[] towards, double difference)
    {
        for (var length = 1.0; length > 1e-6; length /= 2)
        {
            var shares = from.Zip(towards, (here, there) => here + length * (there - here)).ToArray();
            var found = Difference(shares);
            if (found < difference)
            {
                return (shares, found);
            }
        }

        return (from, difference);
    }

    private (double[] Shares, double Difference) Shift(double[] shares, double difference)
    {
        for (var size = 0.1; size > 1e-5;)
        {
            var before = difference;
            for (var from = 0; from < shares.Length; from++)
            {
                for (var to = 0; to < shares.Length; to++)
                {
                    var moved = (double[])shares.Clone();
                    var amount = Math.Min(size, moved[from]);
                    (moved[from], moved[to]) = from == to ? (moved[from], moved[to]) : (moved[from] - amount, moved[to] + amount);
                    var found = Difference(moved);
                    (shares, difference) = found < difference ? (moved, found) : (shares, difference);
                }
            }

            size = difference < before ? size : size / 2;
        }

        return (shares, difference);
    }
}
