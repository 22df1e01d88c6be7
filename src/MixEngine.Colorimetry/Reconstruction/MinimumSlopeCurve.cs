namespace MixEngine.Colorimetry;

/// <summary>
/// The unknowns of the minimum-slope reconstruction: u = ln(R / (1 - R)) per band, which keeps every R inside (0, 1),
/// and three multipliers, one per tristimulus value. [Burns2020] (whose hyperbolic tangent is this logistic curve at half the scale)
/// </summary>
internal sealed class MinimumSlopeCurve
{
    private const int Bands = SpectralGrid.Bands;
    private const int Unknowns = Bands + 3;
    private const int Iterations = 25;
    private const double Tolerance = 1e-12;

    // Towards the most vivid colours the curve becomes a step between 0 and 1; beyond this it makes no difference any more.
    private const double LargestU = 25;

    private readonly double[] _unknowns;

    private MinimumSlopeCurve(double[] unknowns) => _unknowns = unknowns;

    /// <summary>The smallest reflectance that is handed out; the largest is one minus it. Darker or whiter surfaces do not exist.</summary>
    public const double SmallestReflectance = 1e-6;

    /// <summary>A flat curve; it is its own minimum.</summary>
    public static MinimumSlopeCurve Flat(double reflectance)
    {
        var unknowns = new double[Unknowns];
        unknowns.AsSpan(0, Bands).Fill(Math.Log(reflectance / (1 - reflectance)));
        return new MinimumSlopeCurve(unknowns);
    }

    /// <summary>The curve as reflectances.</summary>
    public double[] Reflectances() =>
        Array.ConvertAll(_unknowns[..Bands], u => Math.Clamp(Logistic(u), SmallestReflectance, 1 - SmallestReflectance));

    /// <summary>
    /// Moves to the curve of another colour by Newton's method on the stationarity of
    /// 1/2 sum (u[i+1] - u[i])^2 + lambda . (W R(u) - target).
    /// </summary>
    /// <param name="target">The colour, relative to a white of Y = 1.</param>
    /// <param name="weights">The weights of X, Y and Z, which give a white of Y = 100.</param>
    /// <returns>The new curve, or nothing if none is reached from here within the limits of R.</returns>
    public MinimumSlopeCurve? MoveTo(Xyz target, TristimulusWeights weights)
    {
        var unknowns = (double[])_unknowns.Clone();
        Span<double> jacobian = stackalloc double[Unknowns * Unknowns];
        Span<double> step = stackalloc double[Unknowns];
        for (var iteration = 0; iteration < Iterations; iteration++)
        {
            Linearize(unknowns, target, weights, jacobian, step);
            var residual = 0.0;
            foreach (var value in step)
            {
                residual = Math.Max(residual, Math.Abs(value));
            }

            if (residual < Tolerance)
            {
                return new MinimumSlopeCurve(unknowns);
            }

            if (!LinearSystem.Solve(jacobian, step))
            {
                return null;
            }

            for (var i = 0; i < Unknowns; i++)
            {
                unknowns[i] += step[i];
                if (!double.IsFinite(unknowns[i]) || (i < Bands && Math.Abs(unknowns[i]) > LargestU))
                {
                    return null;
                }
            }
        }

        return null;
    }

    private static void Linearize(double[] unknowns, Xyz target, TristimulusWeights weights, Span<double> jacobian, Span<double> negativeGradient)
    {
        jacobian.Clear();
        ReadOnlySpan<double> x = weights.X, y = weights.Y, z = weights.Z;
        var (lx, ly, lz) = (unknowns[Bands], unknowns[Bands + 1], unknowns[Bands + 2]);
        double gotX = 0, gotY = 0, gotZ = 0;
        for (var i = 0; i < Bands; i++)
        {
            var (wx, wy, wz) = (x[i] / 100, y[i] / 100, z[i] / 100);
            var u = unknowns[i];
            var r = Logistic(u);
            var slope = r * (1 - r);
            var bend = slope * (1 - 2 * r);
            var pull = lx * wx + ly * wy + lz * wz;

            // The slope term couples a band with its neighbours.
            var fromLeft = i > 0 ? u - unknowns[i - 1] : 0;
            var fromRight = i < Bands - 1 ? u - unknowns[i + 1] : 0;
            var neighbours = (i > 0 ? 1 : 0) + (i < Bands - 1 ? 1 : 0);
            negativeGradient[i] = -(fromLeft + fromRight + pull * slope);
            jacobian[i * Unknowns + i] = neighbours + pull * bend;
            if (i > 0)
            {
                jacobian[i * Unknowns + i - 1] = -1;
            }

            if (i < Bands - 1)
            {
                jacobian[i * Unknowns + i + 1] = -1;
            }

            // The colour term couples it with the multipliers.
            jacobian[i * Unknowns + Bands] = jacobian[Bands * Unknowns + i] = wx * slope;
            jacobian[i * Unknowns + Bands + 1] = jacobian[(Bands + 1) * Unknowns + i] = wy * slope;
            jacobian[i * Unknowns + Bands + 2] = jacobian[(Bands + 2) * Unknowns + i] = wz * slope;
            gotX += wx * r;
            gotY += wy * r;
            gotZ += wz * r;
        }

        negativeGradient[Bands] = target.X - gotX;
        negativeGradient[Bands + 1] = target.Y - gotY;
        negativeGradient[Bands + 2] = target.Z - gotZ;
    }

    private static double Logistic(double u) => 1 / (1 + Math.Exp(-u));
}
