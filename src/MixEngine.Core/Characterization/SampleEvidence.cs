using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// What a sample says near an estimate: its residuals and their slopes, whitened by all that may be wrong with it, the nuisances
/// integrated out.
/// </summary>
internal sealed class SampleEvidence
{
    private const int Bands = SpectralGrid.Bands;

    private readonly SampleModel _model;
    private readonly SampleReading[] _readings;
    private readonly Nuisances _nuisances;
    private readonly double[] _discrepancy;
    private readonly double _gain;
    private readonly int _width;

    /// <param name="model">The sample's model.</param>
    /// <param name="readings">Its readings.</param>
    /// <param name="nuisances">Its nuisances.</param>
    /// <param name="discrepancy">Covariance of theory's own error in ln K, bands × bands.</param>
    /// <param name="gain">Standard deviation of the error that all bands of a reading share.</param>
    public SampleEvidence(SampleModel model, SampleReading[] readings, Nuisances nuisances, double[] discrepancy, double gain)
    {
        (_model, _readings, _nuisances, _discrepancy, _gain) = (model, readings, nuisances, discrepancy, gain);
        _width = readings.Length * Bands;
        Rows = readings.Sum(reading => reading.Rows);
        Residual = new double[Rows];
        Slopes = new double[_width * Rows];
        NuisanceSlopes = new double[nuisances.Count * Rows];
        Information = new double[_width * _width];
    }

    /// <summary>Number of observations.</summary>
    public int Rows { get; }

    /// <summary>Whitened residuals.</summary>
    public double[] Residual { get; }

    /// <summary>Whitened slopes by ln R of each reading and band, one after the other.</summary>
    public double[] Slopes { get; }

    /// <summary>Whitened slopes by each nuisance, in its standard deviations, one after the other.</summary>
    public double[] NuisanceSlopes { get; }

    /// <summary>Information about ln R of each reading and band: SlopesᵀSlopes.</summary>
    public double[] Information { get; }

    /// <summary>Takes stock after the model was evaluated.</summary>
    public void Update()
    {
        // Compare with what was read: residuals, their slopes by ln R, and the scatter of each reading.
        var slopes = new double[Rows * _width];
        var covariance = new double[Rows * Rows];
        for (int reading = 0, top = 0; reading < _readings.Length; top += _readings[reading++].Rows)
        {
            Compare(reading, top, slopes, covariance);
        }

        AddDiscrepancy(slopes, covariance);
        IntegrateNuisancesOut(slopes, covariance);
        Whiten(slopes, covariance);
    }

    private void Compare(int reading, int top, double[] slopes, double[] covariance)
    {
        var rows = _readings[reading].Rows;
        var modelled = _model.Reflectance.AsSpan(reading * Bands, Bands);
        var own = new double[rows * Bands];
        _readings[reading].Observe(modelled, Residual.AsSpan(top, rows), own);
        var gain = new double[Rows];
        for (var row = 0; row < rows; row++)
        {
            var slope = own.AsSpan(row * Bands, Bands);
            slope.CopyTo(slopes.AsSpan((top + row) * _width + reading * Bands, Bands));
            covariance[(top + row) * Rows + top + row] = _readings[reading].Variance(row, modelled);
            foreach (var value in slope)
            {
                gain[top + row] += _gain * value;
            }
        }

        AddOuter(covariance, gain);
    }

    // Theory's own error is one curve of ln K for the sample, seen by all its readings.
    private void AddDiscrepancy(double[] slopes, double[] covariance)
    {
        var seen = new double[Rows * Bands];
        var spread = new double[Bands];
        for (var row = 0; row < Rows; row++)
        {
            for (var i = 0; i < _width; i++)
            {
                seen[row * Bands + i % Bands] += slopes[row * _width + i] * _model.ByAbsorption[i];
            }

            for (var band = 0; band < Bands; band++)
            {
                spread[band] = LowerTriangle.Dot(seen.AsSpan(row * Bands, Bands), _discrepancy.AsSpan(band * Bands, Bands));
            }

            for (var other = 0; other <= row; other++)
            {
                covariance[row * Rows + other] += LowerTriangle.Dot(spread, seen.AsSpan(other * Bands, Bands));
            }
        }
    }

    private void IntegrateNuisancesOut(double[] slopes, double[] covariance)
    {
        var byBand = new double[_width];
        for (var n = 0; n < _nuisances.Count; n++)
        {
            _model.NuisanceSlope(n, byBand);
            var column = NuisanceSlopes.AsSpan(n * Rows, Rows);
            for (var row = 0; row < Rows; row++)
            {
                column[row] = LowerTriangle.Dot(slopes.AsSpan(row * _width, _width), byBand);
            }

            LowerTriangle.AddScaled(_nuisances.Departure(n), column, Residual);
            var deviation = Math.Sqrt(_nuisances.Variances[n]);
            for (var row = 0; row < Rows; row++)
            {
                column[row] *= deviation;
            }

            AddOuter(covariance, column);
        }
    }

    private void Whiten(double[] slopes, double[] covariance)
    {
        var triangle = LowerTriangle.Factor(covariance, Rows);
        triangle.SolveForward(Residual);
        for (var n = 0; n < _nuisances.Count; n++)
        {
            triangle.SolveForward(NuisanceSlopes.AsSpan(n * Rows, Rows));
        }

        for (var i = 0; i < _width; i++)
        {
            var column = Slopes.AsSpan(i * Rows, Rows);
            for (var row = 0; row < Rows; row++)
            {
                column[row] = slopes[row * _width + i];
            }

            triangle.SolveForward(column);
            for (var j = 0; j <= i; j++)
            {
                Information[i * _width + j] = Information[j * _width + i] = LowerTriangle.Dot(column, Slopes.AsSpan(j * Rows, Rows));
            }
        }
    }

    private void AddOuter(double[] matrix, ReadOnlySpan<double> vector)
    {
        for (var i = 0; i < Rows; i++)
        {
            LowerTriangle.AddScaled(vector[i], vector, matrix.AsSpan(i * Rows, Rows));
        }
    }
}
