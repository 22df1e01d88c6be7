using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>Gathers independent errors of a colour in CIELAB and weighs them by CIEDE2000.</summary>
internal sealed class LabCovariance
{
    private readonly double[,] _c = new double[3, 3];

    /// <summary>Adds one independent error, given as the colours at plus and minus one standard deviation.</summary>
    public void Add(Lab plus, Lab minus)
    {
        Span<double> d = [(plus.L - minus.L) / 2, (plus.A - minus.A) / 2, (plus.B - minus.B) / 2];
        for (var i = 0; i < 3; i++)
        {
            for (var j = 0; j < 3; j++)
            {
                _c[i, j] += d[i] * d[j];
            }
        }
    }

    /// <summary>Adds to one entry of the covariance, 0 for L, 1 for a, 2 for b.</summary>
    public void Add(int row, int column, double covariance) => _c[row, column] += covariance;

    /// <summary>The expected error around a colour.</summary>
    /// <param name="center">Where.</param>
    /// <param name="residual">An isotropic standard deviation in CIEDE2000 to add.</param>
    public ExpectedError ToExpectedError(Lab center, double residual)
    {
        // Near the centre the squared difference is a quadratic form, dE² = dᵀGd; then E[dE²] = tr(GC) and Var[dE²] = 2·tr(GCGC).
        var g = DifferenceMetric(center);
        var gc = Product(g, _c);
        var trace = gc[0, 0] + gc[1, 1] + gc[2, 2];
        var gcgc = Product(gc, gc);
        var traceOfSquare = gcgc[0, 0] + gcgc[1, 1] + gcgc[2, 2];

        // The residual is isotropic in that metric: G·C grows by residual²·I.
        var r = residual * residual;
        return ExpectedError.FromVariances(trace + 3 * r, traceOfSquare + 2 * r * trace + 3 * r * r);
    }

    private static double[,] DifferenceMetric(Lab center)
    {
        var (ll, aa, bb, ab) = DeltaE2000.MetricAt(center);
        return new[,] { { ll, 0, 0 }, { 0, aa, ab }, { 0, ab, bb } };
    }

    private static double[,] Product(double[,] x, double[,] y)
    {
        var z = new double[3, 3];
        for (var i = 0; i < 3; i++)
        {
            for (var j = 0; j < 3; j++)
            {
                z[i, j] = x[i, 0] * y[0, j] + x[i, 1] * y[1, j] + x[i, 2] * y[2, j];
            }
        }

        return z;
    }
}
