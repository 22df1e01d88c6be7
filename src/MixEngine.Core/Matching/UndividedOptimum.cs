using MathNet.Numerics.LinearAlgebra;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// The best shares of given paints when drops may be divided: least squares on the spectrum to start from, then Newton's method on
/// CIEDE2000 itself, each step a least-squares problem over shares (<see cref="SimplexLeastSquares"/>).
/// </summary>
internal static class UndividedOptimum
{
    private const int MostSteps = 40;

    /// <summary>Finds the shares of one drop for the paints at these places of the shelf, and the difference they leave.</summary>
    /// <remarks>The answer is never worse than the shares known, such as those of a recipe in whole drops.</remarks>
    public static (double[] Shares, double DeltaE00) Find(SearchShelf shelf, int[] places, double[] known, MatchTarget target, ViewingCondition condition)
    {
        var aim = target.Under(condition);
        double Difference(double[] shares) => DeltaE2000.Between(aim, shelf.ColorOf(places, shares));

        // Start where the spectra agree best, from the shares that are known, or from the best paint alone.
        var shares = SpectralStart(shelf, places, target, condition);
        var difference = Difference(shares);
        if (Difference(known) < difference)
        {
            (shares, difference) = (known, Difference(known));
        }

        for (var i = 0; i < places.Length; i++)
        {
            var alone = new double[places.Length];
            alone[i] = 1;
            if (Difference(alone) < difference)
            {
                (shares, difference) = (alone, Difference(alone));
            }
        }

        // Step to the minimum of the local parabola of dE², as far as that helps.
        for (var step = 0; step < MostSteps && places.Length > 1 && difference > 1e-9; step++)
        {
            var towards = NewtonStep(shelf, places, shares, aim);
            var (better, smaller) = Shorten(shares, towards, difference, Difference);
            if (!(smaller < difference * (1 - 1e-9)))
            {
                break;
            }

            (shares, difference) = (better, smaller);
        }

        return (shares, difference);
    }

    // The mixture has the target's q = K/S where Σcᵢ(Kᵢ - qSᵢ) = 0; each band counts as much as it changes X, Y and Z.
    private static double[] SpectralStart(SearchShelf shelf, int[] places, MatchTarget target, ViewingCondition condition)
    {
        var weights = TristimulusWeights.For(condition);
        var q = new double[SpectralGrid.Bands];
        var importance = new double[SpectralGrid.Bands];
        for (var band = 0; band < q.Length; band++)
        {
            var inside = Math.Clamp(new SurfaceReflection(0).ToInternal(target.Reflectance[band]), SurfaceReflection.DarkestInternal, SurfaceReflection.BrightestInternal);
            q[band] = KubelkaMunk.AbsorptionToScattering(inside);

            // dq/dR = (R² - 1) / (2R²); light leaves the surface with the slope dRm/dRi.
            var perRatio = 2 * inside * inside / (1 - inside * inside) * new SurfaceReflection(0).Slope(inside);
            var (x, y, z) = (weights.X[band], weights.Y[band], weights.Z[band]);
            importance[band] = Math.Sqrt(x * x + y * y + z * z) * perRatio;
        }

        var columns = places.Select(place => Vector<double>.Build.Dense(q.Length, band =>
            importance[band] * (shelf.K(place)[band] - q[band] * shelf.S(place)[band]))).ToArray();
        return SimplexLeastSquares.Solve(columns, Vector<double>.Build.Dense(q.Length)).Shares;
    }

    private static double[] NewtonStep(SearchShelf shelf, int[] places, double[] shares, Lab aim)
    {
        // How Lab answers each share. Colour does not depend on the scale of the shares, so each may grow alone.
        const double grow = 1e-6;
        var here = shelf.ColorOf(places, shares);
        var slopes = new double[places.Length][];
        for (var i = 0; i < places.Length; i++)
        {
            var more = (double[])shares.Clone();
            more[i] += grow;
            var there = shelf.ColorOf(places, more);
            slopes[i] = [(there.L - here.L) / grow, (there.A - here.A) / grow, (there.B - here.B) / grow];
        }

        // dE² around here as half·xᵀHx + gx; with H = UᵀU its minimum over shares is least squares in Ux.
        var (gradient, hessian) = Parabola(aim, here);
        var upper = hessian.Cholesky().Factor.Transpose();
        var jacobian = Matrix<double>.Build.Dense(3, places.Length, (row, column) => slopes[column][row]);
        var whitened = upper * jacobian;
        var goal = whitened * Vector<double>.Build.Dense(shares) - upper.Transpose().Solve(gradient);
        return SimplexLeastSquares.Solve([.. whitened.EnumerateColumns()], goal).Shares;
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

    private static (double[] Shares, double Difference) Shorten(double[] from, double[] towards, double difference, Func<double[], double> differenceOf)
    {
        for (var length = 1.0; length > 1e-6; length /= 2)
        {
            var shares = from.Zip(towards, (here, there) => here + length * (there - here)).ToArray();
            var found = differenceOf(shares);
            if (found < difference)
            {
                return (shares, found);
            }
        }

        return (from, difference);
    }
}
