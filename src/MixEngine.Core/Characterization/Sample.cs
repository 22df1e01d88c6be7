using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>One dry sample of known parts, read once or over several grounds, and its pull on the estimate of its paints.</summary>
internal sealed class Sample
{
    private const int Bands = SpectralGrid.Bands;

    private readonly SampleReading[] _readings;
    private readonly Nuisances _nuisances;
    private readonly SampleModel _model;
    private readonly SampleEvidence _evidence;
    private readonly int _width;

    /// <param name="swatches">The swatches read off it.</param>
    /// <param name="readings">The same as readings.</param>
    /// <param name="paints">Places of its paints, the most plentiful first.</param>
    /// <param name="shares">Their shares of the dry film.</param>
    /// <param name="doseVariances">Variance of ln(dose) of each paint but the first.</param>
    /// <param name="discrepancy">Covariance of theory's own error in ln K, bands × bands.</param>
    /// <param name="beliefs">What is believed beforehand.</param>
    public Sample(IReadOnlyList<Swatch> swatches, SampleReading[] readings, int[] paints, double[] shares, double[] doseVariances, double[] discrepancy, Beliefs beliefs)
    {
        (Swatches, Paints, _readings, _width) = (swatches, paints, readings, readings.Length * Bands);
        var film = swatches.Any(swatch => swatch.Backing is not null);
        var stated = swatches.Select(swatch => swatch.ThicknessUm).FirstOrDefault(thickness => thickness is not null);
        var coats = swatches.Select(swatch => swatch.CountedCoats).FirstOrDefault(counted => counted is not null);
        _nuisances = new Nuisances(doseVariances, readings, film, stated, coats, beliefs);
        _model = new SampleModel(paints, shares, readings, _nuisances, film && stated is null);
        _evidence = new SampleEvidence(_model, readings, _nuisances, discrepancy, beliefs.ReadingGain);
    }

    /// <summary>The swatches read off this sample.</summary>
    public IReadOnlyList<Swatch> Swatches { get; }

    /// <summary>Places of its paints.</summary>
    public int[] Paints { get; }

    /// <summary>The readings, one for each swatch.</summary>
    public IReadOnlyList<SampleReading> Readings => _readings;

    /// <summary>Departures of doses, thickness and surface from what was stated.</summary>
    public double[] Nuisance => _nuisances.Values;

    /// <summary>Number of observations.</summary>
    public int Rows => _evidence.Rows;

    /// <summary>Works out what the sample says near an estimate.</summary>
    /// <param name="at">The estimate.</param>
    /// <param name="robust">Whether doses may be far off now and then.</param>
    public void Linearize(Estimate at, bool robust = true)
    {
        _model.Evaluate(at, _nuisances.Values);
        _nuisances.Weigh(robust);
        _evidence.Update();
    }

    /// <summary>Modelled reflectance of every reading and band at an estimate, doses and surfaces as stated.</summary>
    public double[] AsStated(Estimate at)
    {
        _model.Evaluate(at, _nuisances.AsStated());
        return (double[])_model.Reflectance.Clone();
    }

    /// <summary>Adds Jᵀ·W·J·x to a sum, J the slopes and W the information of the readings.</summary>
    /// <param name="x">Where to multiply.</param>
    /// <param name="sum">What to add to.</param>
    /// <param name="u">Room for as many numbers as the readings have bands.</param>
    /// <param name="w">The same.</param>
    public void AddInformation(Estimate x, Estimate sum, double[] u, double[] w)
    {
        Move(x, u);
        for (var i = 0; i < _width; i++)
        {
            w[i] = LowerTriangle.Dot(_evidence.Information.AsSpan(i * _width, _width), u.AsSpan(0, _width));
        }

        Gather(w, sum);
    }

    /// <summary>Adds Jᵀ·W·r to a sum: the pull of the residuals.</summary>
    public void AddPull(Estimate sum) => AddWhitened(_evidence.Residual, sum);

    /// <summary>Adds Jᵀ·W^½·z to a sum: the pull of whitened errors.</summary>
    public void AddWhitened(ReadOnlySpan<double> whitened, Estimate sum)
    {
        var w = new double[_width];
        for (var i = 0; i < _width; i++)
        {
            w[i] = LowerTriangle.Dot(_evidence.Slopes.AsSpan(i * Rows, Rows), whitened);
        }

        Gather(w, sum);
    }

    /// <summary>Adds the sample's share of the matrix of one of its paints, lower triangle.</summary>
    public void AddBlock(int paint, double[] block)
    {
        const int size = Estimate.PerPaint;
        var place = Array.IndexOf(Paints, paint);
        var (s, q) = (_model.ByLogScattering[place], _model.ByLogRatio[place]);
        for (var i = 0; i < _width; i++)
        {
            var bi = i % Bands;
            for (var j = 0; j < _width; j++)
            {
                var bj = j % Bands;
                var w = _evidence.Information[i * _width + j];
                block[bi * size + bj] += s[i] * w * s[j];
                block[(Bands + bi) * size + bj] += q[i] * w * s[j];
                block[(Bands + bi) * size + Bands + bj] += q[i] * w * q[j];
            }
        }
    }

    /// <summary>Adds the information about each of the common values alone.</summary>
    public void AddCommonInformation(Estimate sum)
    {
        double Information(double[] slopes, int? surface)
        {
            var total = 0.0;
            for (var i = 0; i < _width; i++)
            {
                for (var j = 0; j < _width; j++)
                {
                    var counts = surface is null || (_readings[i / Bands].Surface == surface && _readings[j / Bands].Surface == surface);
                    total += counts ? slopes[i] * _evidence.Information[i * _width + j] * slopes[j] : 0;
                }
            }

            return total;
        }

        sum.Thickness += Information(_model.ByUsualThickness, null);
        foreach (var surface in _readings.Select(reading => reading.Surface).Distinct())
        {
            sum.Surface(surface) += Information(_model.ByShare, surface);
        }
    }

    /// <summary>Moves the nuisances to where they are likeliest once the estimate has moved by a step.</summary>
    public void FollowStep(Estimate step, double damping)
    {
        // Whitened residuals after the step, in linear approximation.
        var u = new double[_width];
        Move(step, u);
        var left = (double[])_evidence.Residual.Clone();
        for (var i = 0; i < _width; i++)
        {
            LowerTriangle.AddScaled(-u[i], _evidence.Slopes.AsSpan(i * Rows, Rows), left);
        }

        for (var n = 0; n < _nuisances.Count; n++)
        {
            _nuisances.MoveTowards(n, LowerTriangle.Dot(_evidence.NuisanceSlopes.AsSpan(n * Rows, Rows), left), damping);
        }
    }

    /// <summary>Root mean square of its errors at an estimate, whitened by what readings, doses and theory explain.</summary>
    public double Misfit(Estimate at)
    {
        Linearize(at, robust: false);
        return Math.Sqrt(LowerTriangle.Dot(_evidence.Residual, _evidence.Residual) / Rows);
    }

    // Change of ln R per reading and band with a change of the estimate: J·x.
    private void Move(Estimate x, double[] u)
    {
        for (var reading = 0; reading < _readings.Length; reading++)
        {
            var share = x.Surface(_readings[reading].Surface);
            for (var i = reading * Bands; i < (reading + 1) * Bands; i++)
            {
                u[i] = _model.ByShare[i] * share + _model.ByUsualThickness[i] * x.Thickness;
            }
        }

        for (var p = 0; p < Paints.Length; p++)
        {
            Span<double> s = x.Scattering(Paints[p]), q = x.Ratio(Paints[p]);
            double[] byS = _model.ByLogScattering[p], byQ = _model.ByLogRatio[p];
            for (var i = 0; i < _width; i++)
            {
                u[i] += byS[i] * s[i % Bands] + byQ[i] * q[i % Bands];
            }
        }
    }

    // Adds Jᵀ·w.
    private void Gather(double[] w, Estimate sum)
    {
        for (var p = 0; p < Paints.Length; p++)
        {
            Span<double> s = sum.Scattering(Paints[p]), q = sum.Ratio(Paints[p]);
            double[] byS = _model.ByLogScattering[p], byQ = _model.ByLogRatio[p];
            for (var i = 0; i < _width; i++)
            {
                s[i % Bands] += byS[i] * w[i];
                q[i % Bands] += byQ[i] * w[i];
            }
        }

        sum.Thickness += LowerTriangle.Dot(_model.ByUsualThickness, w.AsSpan(0, _width));
        for (var reading = 0; reading < _readings.Length; reading++)
        {
            sum.Surface(_readings[reading].Surface) += LowerTriangle.Dot(_model.ByShare.AsSpan(reading * Bands, Bands), w.AsSpan(reading * Bands, Bands));
        }
    }
}
