using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// One dry sample of known parts, read once or over several grounds, and what it says about its paints near an estimate.
/// </summary>
/// <remarks>
/// What is of no further interest (how the doses really were, how thick the film lies, how much of the surface each reading took in)
/// is carried as nuisances with beliefs of their own and integrated out of the linearised problem.
/// </remarks>
internal sealed class Sample
{
    private const int Bands = SpectralGrid.Bands;

    private readonly Beliefs _beliefs;
    private readonly SampleReading[] _readings;
    private readonly double[] _shares;
    private readonly double[] _nuisanceMean;
    private readonly double[] _nuisanceVariance;
    private readonly double[] _discrepancy;
    private readonly bool _film;
    private readonly bool _usualThickness;
    private readonly double[] _byThickness;
    private readonly int _rows;

    private readonly SampleModel _model;

    // What the last linearisation found: slopes of ln R by ln S and ln(K/S) of each paint, per reading and band, and whitened rows.
    private readonly double[][] _byScattering;
    private readonly double[][] _byRatio;
    private readonly double[] _variances;
    private readonly double[] _whiteSlopes;
    private readonly double[] _whiteResidual;
    private readonly double[] _whiteNuisance;
    private readonly double[] _information;

    public Sample(IReadOnlyList<Swatch> swatches, int[] paints, double[] shares, double[] doseVariance, int[] surfaces, double[] usualShares, Beliefs beliefs, double[] discrepancy)
    {
        (Swatches, Paints, _shares, _beliefs, _discrepancy) = (swatches, paints, shares, beliefs, discrepancy);
        _readings = [.. swatches.Select((swatch, i) => new SampleReading(swatch, surfaces[i], usualShares[i], beliefs))];
        _rows = _readings.Sum(reading => reading.Rows);
        _film = swatches.Any(swatch => swatch.Backing is not null);
        _usualThickness = _film && swatches.All(swatch => swatch.ThicknessUm is null);

        // Nuisances: the dose of each paint but the first, to which they are relative; the thickness of the film and of each of its
        // readings; the surface of each reading.
        var doses = paints.Length - 1;
        var stated = swatches.Select(swatch => swatch.ThicknessUm).FirstOrDefault(thickness => thickness is not null);
        var mean = new List<double>(new double[doses]);
        var variance = new List<double>(doseVariance[1..]);
        ThicknessAt = mean.Count;
        if (_film)
        {
            // Against the usual film where none is stated.
            mean.Add(Math.Log(stated ?? 1));
            variance.Add(Square(stated is null ? beliefs.ThicknessOfFilm : beliefs.StatedThickness));
            mean.AddRange(new double[_readings.Length]);
            variance.AddRange(Enumerable.Repeat(Square(beliefs.ThicknessScatter), _readings.Length));
        }

        ShareAt = mean.Count;
        mean.AddRange(new double[_readings.Length]);
        variance.AddRange(_readings.Select(reading => Square(beliefs.SurfaceScatter + Math.Max(0, -reading.ShareStart))));
        (_nuisanceMean, _nuisanceVariance) = ([.. mean], [.. variance]);
        Nuisance = [.. mean];
        for (var i = 0; i < _readings.Length; i++)
        {
            Nuisance[ShareAt + i] = _readings[i].ShareStart;
        }

        var width = _readings.Length * Bands;
        _byScattering = [.. paints.Select(_ => new double[width])];
        _byRatio = [.. paints.Select(_ => new double[width])];
        _byThickness = new double[width];
        _model = new SampleModel(paints.Length, _readings.Length);
        _variances = new double[_nuisanceMean.Length];
        _whiteSlopes = new double[width * _rows];
        _whiteResidual = new double[_rows];
        _whiteNuisance = new double[_nuisanceMean.Length * _rows];
        _information = new double[width * width];
    }

    /// <summary>The swatches read off this sample.</summary>
    public IReadOnlyList<Swatch> Swatches { get; }

    /// <summary>Places of its paints.</summary>
    public int[] Paints { get; }

    /// <summary>Departures of doses, thickness and surface from what was stated.</summary>
    public double[] Nuisance { get; private set; }

    /// <summary>Number of readings.</summary>
    public int Readings => _readings.Length;

    /// <summary>Number of observations.</summary>
    public int Rows => _rows;

    /// <summary>The readings.</summary>
    public IReadOnlyList<SampleReading> Reading => _readings;

    /// <summary>Where ln(thickness) stands among the nuisances.</summary>
    public int ThicknessAt { get; }

    /// <summary>Where the surface shares stand among the nuisances.</summary>
    public int ShareAt { get; }

    /// <summary>Modelled reflectance of every reading and band at an estimate, doses and surfaces as stated.</summary>
    public double[] AsStated(Estimate at)
    {
        var nuisance = (double[])_nuisanceMean.Clone();
        Array.Copy(Nuisance, ThicknessAt, nuisance, ThicknessAt, ShareAt - ThicknessAt);
        Model(at, nuisance);
        return (double[])_model.Reflectance.Clone();
    }

    /// <summary>Works out what the sample says near an estimate.</summary>
    /// <param name="at">The estimate.</param>
    /// <param name="robust">Whether doses may be far off now and then.</param>
    public void Linearize(Estimate at, bool robust = true)
    {
        // Model every reading, and how it moves with each paint.
        Model(at, Nuisance);
        for (var p = 0; p < Paints.Length; p++)
        {
            for (var i = 0; i < _model.Reflectance.Length; i++)
            {
                var byK = _model.ByAbsorption[i] * _model.AbsorptionShares[p][i % Bands];
                _byRatio[p][i] = byK;
                _byScattering[p][i] = byK + _model.ByScattering[i] * _model.ScatteringShares[p][i % Bands];
            }
        }

        if (_usualThickness)
        {
            for (var i = 0; i < _byThickness.Length; i++)
            {
                _byThickness[i] = _readings[i / Bands].Backing is null ? 0 : _model.ByAbsorption[i] + _model.ByScattering[i];
            }
        }

        // Compare with what was read: residuals, their slopes by ln R, and the scatter of each reading.
        var width = _readings.Length * Bands;
        var residual = new double[_rows];
        var slopes = new double[_rows * width];
        var covariance = new double[_rows * _rows];
        for (int reading = 0, top = 0; reading < _readings.Length; top += _readings[reading++].Rows)
        {
            var rows = _readings[reading].Rows;
            var modelled = _model.Reflectance.AsSpan(reading * Bands, Bands);
            var gain = new double[_rows];
            var ownSlopes = new double[rows * Bands];
            _readings[reading].Observe(modelled, residual.AsSpan(top, rows), ownSlopes);
            for (var row = 0; row < rows; row++)
            {
                var slope = ownSlopes.AsSpan(row * Bands, Bands);
                slope.CopyTo(slopes.AsSpan((top + row) * width + reading * Bands, Bands));
                covariance[(top + row) * _rows + top + row] = _readings[reading].Variance(row, modelled);
                gain[top + row] = _beliefs.ReadingGain * Sum(slope);
            }

            AddOuter(covariance, gain);
        }

        AddDiscrepancy(covariance, slopes);
        IntegrateNuisancesOut(covariance, residual, slopes, robust);
        Whiten(covariance, residual, slopes);
    }

    /// <summary>Adds Jᵀ·W·J·x to a sum, J the slopes and W the information of the readings.</summary>
    public void AddInformation(Estimate x, Estimate sum, double[] u, double[] w)
    {
        Move(x, u);
        var width = _readings.Length * Bands;
        for (var i = 0; i < width; i++)
        {
            w[i] = LowerTriangle.Dot(_information.AsSpan(i * width, width), u.AsSpan(0, width));
        }

        Gather(w, sum);
    }

    /// <summary>Adds Jᵀ·W·r to a sum: the pull of the residuals.</summary>
    public void AddPull(Estimate sum) => AddWhitened(_whiteResidual, sum);

    /// <summary>Adds Jᵀ·W^½·z to a sum: the pull of whitened errors.</summary>
    public void AddWhitened(ReadOnlySpan<double> whitened, Estimate sum)
    {
        var width = _readings.Length * Bands;
        var w = new double[width];
        for (var i = 0; i < width; i++)
        {
            w[i] = LowerTriangle.Dot(_whiteSlopes.AsSpan(i * _rows, _rows), whitened);
        }

        Gather(w, sum);
    }

    /// <summary>Adds the sample's share of the matrix of one of its paints (lower triangle and all).</summary>
    public void AddBlock(int paint, double[] block)
    {
        const int size = Estimate.PerPaint;
        var width = _readings.Length * Bands;
        var place = Array.IndexOf(Paints, paint);
        var (s, q) = (_byScattering[place], _byRatio[place]);
        for (var i = 0; i < width; i++)
        {
            var bi = i % Bands;
            for (var j = 0; j < width; j++)
            {
                var bj = j % Bands;
                var w = _information[i * width + j];
                block[bi * size + bj] += s[i] * w * s[j];
                block[(Bands + bi) * size + bj] += q[i] * w * s[j];
                block[(Bands + bi) * size + Bands + bj] += q[i] * w * q[j];
            }
        }
    }

    /// <summary>Adds the information about each of the common values alone.</summary>
    public void AddCommonInformation(Estimate sum)
    {
        var width = _readings.Length * Bands;
        double Information(double[] slopes, int surface)
        {
            var total = 0.0;
            for (var i = 0; i < width; i++)
            {
                for (var j = 0; j < width && (surface < 0 || _readings[i / Bands].Surface == surface); j++)
                {
                    total += surface < 0 || _readings[j / Bands].Surface == surface ? slopes[i] * _information[i * width + j] * slopes[j] : 0;
                }
            }

            return total;
        }

        sum.Thickness += Information(_byThickness, -1);
        foreach (var surface in _readings.Select(reading => reading.Surface).Distinct())
        {
            sum.Surface(surface) += Information(_model.ByShare, surface);
        }
    }

    /// <summary>Brings its doses, thickness and surfaces to where they are likeliest for given paints.</summary>
    public void Adapt(Estimate at)
    {
        const int rounds = 6;
        for (var round = 0; round < rounds; round++)
        {
            Linearize(at);
            FollowStep(at.Zero(), 1);
        }
    }

    /// <summary>Root mean square of its errors at an estimate, whitened by what readings, doses and theory explain.</summary>
    public double Misfit(Estimate at)
    {
        Linearize(at, robust: false);
        return Math.Sqrt(LowerTriangle.Dot(_whiteResidual, _whiteResidual) / _rows);
    }

    /// <summary>Moves the nuisances to where they are likeliest once the estimate has moved by a step.</summary>
    public void FollowStep(Estimate step, double damping)
    {
        var left = WhiteResidualAfter(step);
        for (var n = 0; n < _nuisanceMean.Length; n++)
        {
            var target = _nuisanceMean[n] + Math.Sqrt(_variances[n]) * LowerTriangle.Dot(_whiteNuisance.AsSpan(n * _rows, _rows), left);
            Nuisance[n] += damping * Math.Clamp(target - Nuisance[n], -1, 1);
        }
    }

    /// <summary>Whitened residuals after a step, in linear approximation: unit normals if all beliefs hold.</summary>
    public double[] WhiteResidualAfter(Estimate step)
    {
        var width = _readings.Length * Bands;
        var u = new double[width];
        Move(step, u);
        var left = (double[])_whiteResidual.Clone();
        for (var i = 0; i < width; i++)
        {
            LowerTriangle.AddScaled(-u[i], _whiteSlopes.AsSpan(i * _rows, _rows), left);
        }

        return left;
    }

    /// <summary>Change of ln R per reading and band with a change of the estimate.</summary>
    public void Move(Estimate x, double[] u)
    {
        for (var reading = 0; reading < _readings.Length; reading++)
        {
            var share = x.Surface(_readings[reading].Surface);
            for (var band = 0; band < Bands; band++)
            {
                u[reading * Bands + band] = _model.ByShare[reading * Bands + band] * share + _byThickness[reading * Bands + band] * x.Thickness;
            }
        }

        for (var p = 0; p < Paints.Length; p++)
        {
            Span<double> s = x.Scattering(Paints[p]), q = x.Ratio(Paints[p]);
            double[] byS = _byScattering[p], byQ = _byRatio[p];
            for (var reading = 0; reading < _readings.Length; reading++)
            {
                for (var band = 0; band < Bands; band++)
                {
                    var i = reading * Bands + band;
                    u[i] += byS[i] * s[band] + byQ[i] * q[band];
                }
            }
        }
    }

    private void Gather(double[] w, Estimate sum)
    {
        for (var p = 0; p < Paints.Length; p++)
        {
            Span<double> s = sum.Scattering(Paints[p]), q = sum.Ratio(Paints[p]);
            double[] byS = _byScattering[p], byQ = _byRatio[p];
            for (var reading = 0; reading < _readings.Length; reading++)
            {
                for (var band = 0; band < Bands; band++)
                {
                    var i = reading * Bands + band;
                    s[band] += byS[i] * w[i];
                    q[band] += byQ[i] * w[i];
                }
            }
        }

        sum.Thickness += LowerTriangle.Dot(_byThickness, w.AsSpan(0, _byThickness.Length));
        for (var reading = 0; reading < _readings.Length; reading++)
        {
            sum.Surface(_readings[reading].Surface) += LowerTriangle.Dot(_model.ByShare.AsSpan(reading * Bands, Bands), w.AsSpan(reading * Bands, Bands));
        }
    }

    private void Model(Estimate at, double[] nuisance)
    {
        Span<double> amounts = stackalloc double[Paints.Length];
        for (var p = 0; p < amounts.Length; p++)
        {
            amounts[p] = _shares[p] * (p > 0 ? Math.Exp(nuisance[p - 1]) : 1);
        }

        _model.Mix(at, Paints, amounts);
        for (var reading = 0; reading < _readings.Length; reading++)
        {
            var surface = new SurfaceReflection(Math.Clamp(at.Surface(_readings[reading].Surface) + nuisance[ShareAt + reading], 0, 2));
            if (_readings[reading].Backing is { } ground)
            {
                var usual = _usualThickness ? at.Thickness : 0;
                _model.Film(reading, surface, Math.Exp(usual + nuisance[ThicknessAt] + nuisance[ThicknessAt + 1 + reading]), ground);
            }
            else
            {
                _model.Hiding(reading, surface);
            }
        }
    }

    // Theory's own error is one curve of ln K for the sample, seen by all its readings.
    private void AddDiscrepancy(double[] covariance, double[] slopes)
    {
        var width = _readings.Length * Bands;
        var seen = new double[_rows * Bands];
        var spread = new double[_rows * Bands];
        for (var row = 0; row < _rows; row++)
        {
            for (var i = 0; i < width; i++)
            {
                seen[row * Bands + i % Bands] += slopes[row * width + i] * _model.ByAbsorption[i];
            }

            for (var band = 0; band < Bands; band++)
            {
                spread[row * Bands + band] = LowerTriangle.Dot(seen.AsSpan(row * Bands, Bands), _discrepancy.AsSpan(band * Bands, Bands));
            }

            for (var other = 0; other <= row; other++)
            {
                covariance[row * _rows + other] += LowerTriangle.Dot(spread.AsSpan(row * Bands, Bands), seen.AsSpan(other * Bands, Bands));
            }
        }
    }

    private void IntegrateNuisancesOut(double[] covariance, double[] residual, double[] slopes, bool robust)
    {
        var width = _readings.Length * Bands;
        var byBand = new double[width];
        for (var n = 0; n < _nuisanceMean.Length; n++)
        {
            // How ln R moves with this nuisance, and the rows with it.
            for (var i = 0; i < width; i++)
            {
                var reading = i / Bands;
                byBand[i] = n < ThicknessAt ? _byScattering[n + 1][i]
                    : n < ShareAt ? (n == ThicknessAt || n == ThicknessAt + 1 + reading ? _model.ByAbsorption[i] + _model.ByScattering[i] : 0)
                    : n == ShareAt + reading ? _model.ByShare[i] : 0;
            }

            var column = _whiteNuisance.AsSpan(n * _rows, _rows);
            for (var row = 0; row < _rows; row++)
            {
                column[row] = LowerTriangle.Dot(slopes.AsSpan(row * width, width), byBand);
            }

            // Student's t is a normal whose variance follows the departure.
            var variance = _nuisanceVariance[n];
            if (robust && n < ThicknessAt)
            {
                variance *= (_beliefs.StrengthFreedom + Square(Nuisance[n]) / variance) / (_beliefs.StrengthFreedom + 1);
            }

            _variances[n] = variance;
            LowerTriangle.AddScaled(Nuisance[n] - _nuisanceMean[n], column, residual);
            for (var row = 0; row < _rows; row++)
            {
                column[row] *= Math.Sqrt(variance);
            }

            AddOuter(covariance, column);
        }
    }

    private void Whiten(double[] covariance, double[] residual, double[] slopes)
    {
        var width = _readings.Length * Bands;
        var triangle = LowerTriangle.Factor(covariance, _rows);
        residual.CopyTo(_whiteResidual, 0);
        triangle.SolveForward(_whiteResidual);
        for (var n = 0; n < _nuisanceMean.Length; n++)
        {
            triangle.SolveForward(_whiteNuisance.AsSpan(n * _rows, _rows));
        }

        for (var i = 0; i < width; i++)
        {
            var column = _whiteSlopes.AsSpan(i * _rows, _rows);
            for (var row = 0; row < _rows; row++)
            {
                column[row] = slopes[row * width + i];
            }

            triangle.SolveForward(column);
            for (var j = 0; j <= i; j++)
            {
                _information[i * width + j] = _information[j * width + i] = LowerTriangle.Dot(column, _whiteSlopes.AsSpan(j * _rows, _rows));
            }
        }
    }

    private void AddOuter(double[] matrix, ReadOnlySpan<double> vector)
    {
        for (var i = 0; i < _rows; i++)
        {
            LowerTriangle.AddScaled(vector[i], vector, matrix.AsSpan(i * _rows, _rows));
        }
    }

    private static double Sum(ReadOnlySpan<double> values)
    {
        var sum = 0.0;
        foreach (var value in values)
        {
            sum += value;
        }

        return sum;
    }

    private static double Square(double x) => x * x;
}
