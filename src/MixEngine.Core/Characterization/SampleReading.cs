using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// One reading of a sample as the estimator sees it: rows of observations, and how they move with ln R of each band.
/// A spectrum gives one row a band, ln R; a colour gives three, L, a and b.
/// </summary>
internal sealed class SampleReading
{
    private readonly Swatch _swatch;
    private readonly Beliefs _beliefs;
    private readonly TristimulusWeights? _weights;
    private readonly int _firstBand;

    public SampleReading(Swatch swatch, int surface, double usualShare, Beliefs beliefs)
    {
        (_swatch, Surface, _beliefs) = (swatch, surface, beliefs);
        _weights = swatch.Color.Condition is { } condition ? TristimulusWeights.For(condition) : null;
        _firstBand = (swatch.Color.FirstNm - SpectralGrid.FirstNm) / SpectralGrid.StepNm;
        Rows = _weights is null ? (swatch.Color.LastNm - swatch.Color.FirstNm) / SpectralGrid.StepNm + 1 : 3;

        // A reading darker than its surface should be was not taken as stated: less of the surface reflection is in it.
        Darkest = swatch.Color.Reflectance().Values.ToArray().Min();
        TooDark = Darkest < usualShare * SurfaceReflection.External;
        ShareStart = TooDark ? 0.8 * Darkest / SurfaceReflection.External - usualShare : 0;
        Backing = swatch.Backing?.Reflectance();
    }

    /// <summary>Number of observations.</summary>
    public int Rows { get; }

    /// <summary>Which of the unknown surface shares it was read with.</summary>
    public int Surface { get; }

    /// <summary>Lowest reflectance in it.</summary>
    public double Darkest { get; }

    /// <summary>Whether it is darker than the surface alone would look.</summary>
    public bool TooDark { get; }

    /// <summary>Where to start looking for its own departure from the common share.</summary>
    public double ShareStart { get; }

    /// <summary>The bare ground, as read.</summary>
    public Reflectance? Backing { get; }

    /// <summary>Measured less modelled, and the slopes of the rows by ln R (rows × bands).</summary>
    public void Observe(ReadOnlySpan<double> modelled, Span<double> residual, Span<double> slopes)
    {
        slopes.Clear();
        if (_weights is null)
        {
            for (var row = 0; row < Rows; row++)
            {
                var band = _firstBand + row;
                residual[row] = Math.Log(Math.Max(_swatch.Color.Spectrum![band], SurfaceReflection.DarkestInternal) / modelled[band]);
                slopes[row * SpectralGrid.Bands + band] = 1;
            }

            return;
        }

        var measured = _swatch.Color.LabUnder(_swatch.Color.Condition!);
        var xyz = _weights.ToXyz(modelled);
        var lab = Lab.FromXyz(xyz, _weights.White);
        (residual[0], residual[1], residual[2]) = (measured.L - lab.L, measured.A - lab.A, measured.B - lab.B);

        // Slopes of L, a, b by X, Y, Z, then by ln R of each band.
        var (fx, fy, fz) = (Slope(xyz.X, _weights.White.X), Slope(xyz.Y, _weights.White.Y), Slope(xyz.Z, _weights.White.Z));
        for (var band = 0; band < SpectralGrid.Bands; band++)
        {
            var (x, y, z) = (fx * _weights.X[band] * modelled[band], fy * _weights.Y[band] * modelled[band], fz * _weights.Z[band] * modelled[band]);
            slopes[band] = 116 * y;
            slopes[SpectralGrid.Bands + band] = 500 * (x - y);
            slopes[2 * SpectralGrid.Bands + band] = 200 * (y - z);
        }
    }

    /// <summary>Variance of an observation by itself.</summary>
    public double Variance(int row, ReadOnlySpan<double> modelled)
    {
        if (_weights is null)
        {
            var absolute = _beliefs.ReadingAbsolute / modelled[_firstBand + row];
            return _beliefs.ReadingRelative * _beliefs.ReadingRelative + absolute * absolute;
        }

        // Strong colours are told apart less finely.
        var reading = _beliefs.ColorReading[(int)_swatch.Source];
        var chroma = _swatch.Color.LabUnder(_swatch.Color.Condition!).Chroma;
        var scale = row == 0 ? 1 : 1 + 0.03 * chroma;
        return reading * reading * scale * scale;
    }

    private static double Slope(double value, double white)
    {
        const double step = 1e-4;
        double F(double v) => (Lab.FromXyz(new Xyz(white, v * white, white), new Xyz(white, white, white)).L + 16) / 116;
        return (F(value / white + step) - F(value / white - step)) / (2 * step * white);
    }
}
