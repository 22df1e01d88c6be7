using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// The likeliest K and S of all paints together, given what is believed of them and what their samples say:
/// Gauss-Newton steps, each solved by conjugate gradients.
/// </summary>
/// <remarks>
/// A sample couples few paints, so the matrix of a step is never built: its product with a vector is gathered from the samples, and
/// each paint's own block, factored, is the preconditioner. Time grows with the number of samples, not with the cube of the paints.
/// </remarks>
internal sealed class JointFit
{
    private const int MostSteps = 30;
    private const double SmallestStep = 5e-3;
    private const double LongestStep = 2;

    // Steps and draws are solved to a thousandth: the next step mends what is left, and draws scatter far more.
    private const double Near = 1e-3;

    private readonly PaintBelief[] _paints;
    private readonly Sample[] _samples;
    private readonly int _width;
    private readonly (double Mean, double Deviation)[] _commons;
    private readonly LowerTriangle _scattering;
    private readonly LowerTriangle _knownRatio;
    private readonly LowerTriangle _unknownRatio;
    private readonly double[] _scatteringPrecision;
    private readonly double[] _knownPrecision;
    private readonly double[] _unknownPrecision;
    private LowerTriangle[] _blocks = [];
    private double[] _commonBlocks = [];

    public JointFit(PaintBelief[] paints, Sample[] samples, (double Mean, double Deviation)[] surfaces, Beliefs beliefs)
    {
        (_paints, _samples) = (paints, samples);
        _width = samples.Length == 0 ? 0 : samples.Max(sample => sample.Readings.Count) * SpectralGrid.Bands;
        _commons = [.. surfaces, (Math.Log(beliefs.ThicknessUm), beliefs.ThicknessLevel)];

        // Curves are told apart from their neighbours by a hundredth, so that the covariances stay invertible.
        const double band = 0.01;
        LowerTriangle Smooth(double shape, double lengthNm, double level) =>
            LowerTriangle.Factor(Beliefs.SmoothCovariance(shape, lengthNm, level, band), SpectralGrid.Bands);
        _scattering = Smooth(beliefs.ScatteringShape, beliefs.ScatteringLengthNm, beliefs.ScatteringLevel);
        _knownRatio = Smooth(beliefs.AbsorptionShape, beliefs.AbsorptionLengthNm, beliefs.AbsorptionLevel);
        _unknownRatio = Smooth(beliefs.UnknownAbsorptionShape, beliefs.AbsorptionLengthNm, beliefs.UnknownAbsorptionLevel);
        (_scatteringPrecision, _knownPrecision, _unknownPrecision) = (_scattering.Inverse(), _knownRatio.Inverse(), _unknownRatio.Inverse());

        Current = new Estimate(paints.Length, surfaces.Length);
        for (var p = 0; p < paints.Length; p++)
        {
            paints[p].LogScattering.CopyTo(Current.Scattering(p));
            paints[p].LogRatio.CopyTo(Current.Ratio(p));
        }

        for (var i = 0; i < _commons.Length; i++)
        {
            Current.Common[i] = _commons[i].Mean;
        }
    }

    private JointFit(JointFit like, Sample[] samples)
    {
        (_paints, _samples, _width, _commons, Current) = (like._paints, samples, like._width, like._commons, like.Current.Copy());
        (_scattering, _knownRatio, _unknownRatio) = (like._scattering, like._knownRatio, like._unknownRatio);
        (_scatteringPrecision, _knownPrecision, _unknownPrecision) = (like._scatteringPrecision, like._knownPrecision, like._unknownPrecision);
    }

    /// <summary>The likeliest values found so far.</summary>
    public Estimate Current { get; private set; }

    /// <summary>Gauss-Newton steps that were needed.</summary>
    public int Steps { get; private set; }

    /// <summary>Takes an estimate as found, and works out the spread around it.</summary>
    public void StayAt(Estimate estimate)
    {
        Current = estimate;
        Linearize();
    }

    /// <summary>
    /// How much disagreement goes when one sample is left out and the others are fitted without it: between the samples, and with what is
    /// believed of the paints. Twice a difference of log-likelihoods, their determinants taken as equal.
    /// </summary>
    public double Relief(Sample sample, CancellationToken cancel)
    {
        var nuisances = Array.ConvertAll(_samples, one => (double[])one.Nuisance.Clone());
        var with = Disagreement();
        var others = new JointFit(this, [.. _samples.Where(one => one != sample)]);
        others.Run(cancel);
        var without = others.Disagreement();
        for (var i = 0; i < _samples.Length; i++)
        {
            nuisances[i].CopyTo(_samples[i].Nuisance, 0);
        }

        return with - without;
    }

    private double Disagreement()
    {
        var away = Away();
        var weighed = Current.Zero();
        AddBeliefs(away, weighed);
        return LowerTriangle.Dot(away.Values, weighed.Values) + _samples.Sum(sample => sample.Rows * Math.Pow(sample.Misfit(Current), 2));
    }

    /// <summary>Finds the likeliest values.</summary>
    public void Run(CancellationToken cancel) => Run(pull => Solve([pull], cancel)[0], cancel);

    /// <summary>The same with another way to solve the equations of a step.</summary>
    internal void Run(Func<Estimate, Estimate> solve, CancellationToken cancel)
    {
        for (Steps = 1; Steps <= MostSteps; Steps++)
        {
            cancel.ThrowIfCancellationRequested();
            Linearize();
            if (Move(solve(Pull())) < SmallestStep)
            {
                break;
            }
        }

        Linearize();
    }

    // Pull of the samples against pull of the beliefs.
    private Estimate Pull()
    {
        var pull = Current.Zero();
        foreach (var sample in _samples)
        {
            sample.AddPull(pull);
        }

        var back = Current.Zero();
        AddBeliefs(Away(), back);
        LowerTriangle.AddScaled(-1, back.Values, pull.Values);
        return pull;
    }

    // How far the values are from what is believed.
    private Estimate Away()
    {
        var away = Current.Copy();
        for (var p = 0; p < _paints.Length; p++)
        {
            LowerTriangle.AddScaled(-1, _paints[p].LogScattering, away.Scattering(p));
            LowerTriangle.AddScaled(-1, _paints[p].LogRatio, away.Ratio(p));
        }

        for (var i = 0; i < _commons.Length; i++)
        {
            away.Common[i] -= _commons[i].Mean;
        }

        return away;
    }

    // Takes a step, but never so far that the linear picture is worthless; late steps are shortened to end any swinging.
    private double Move(Estimate step)
    {
        var longest = Longest(step);
        var damping = Math.Min(Steps <= 12 ? 1 : 0.5, LongestStep / Math.Max(longest, 1e-9));
        foreach (var sample in _samples)
        {
            sample.FollowStep(step, damping);
        }

        LowerTriangle.AddScaled(damping, step.Values, Current.Values);
        return longest;
    }

    /// <summary>The pull b whose answer A⁻¹b is one draw from the posterior, as a departure from the likeliest values.</summary>
    /// <remarks>
    /// With A the matrix of the last step, x = A⁻¹b has covariance A⁻¹ if b has covariance A; and b is drawn term by term,
    /// whitened errors of each belief and each sample pulling as residuals do [PapandreouYuille2010].
    /// </remarks>
    /// <param name="paintSeeds">A seed for each paint.</param>
    /// <param name="sampleSeeds">A seed for each sample.</param>
    public Estimate DrawnPull(ReadOnlySpan<ulong> paintSeeds, ReadOnlySpan<ulong> sampleSeeds)
    {
        var pull = Current.Zero();
        for (var p = 0; p < _paints.Length; p++)
        {
            var normals = new UnitNormals(paintSeeds[p]);
            normals.Fill(pull.Paint(p));
            _scattering.SolveBackward(pull.Scattering(p));
            RatioTriangle(p).SolveBackward(pull.Ratio(p));
        }

        for (var i = 0; i < _commons.Length; i++)
        {
            pull.Common[i] = new UnitNormals(paintSeeds[0] + (ulong)i + 1).Next() / _commons[i].Deviation;
        }

        for (var i = 0; i < _samples.Length; i++)
        {
            var normals = new UnitNormals(sampleSeeds[i]);
            var errors = new double[_samples[i].Rows];
            normals.Fill(errors);
            _samples[i].AddWhitened(errors, pull);
        }

        return pull;
    }

    /// <summary>Solves for several right-hand sides, each paint's own block being the preconditioner.</summary>
    public Estimate[] Solve(Estimate[] right, CancellationToken cancel) => ConjugateGradients.Solve(right, Multiply, Precondition, Near, cancel);

    // Adds the matrix of a step times each x to each sum.
    private void Multiply(Estimate[] x, Estimate[] sum)
    {
        for (var i = 0; i < x.Length; i++)
        {
            AddBeliefs(x[i], sum[i]);
        }

        double[] u = new double[_width], w = new double[_width];
        foreach (var sample in _samples)
        {
            for (var i = 0; i < x.Length; i++)
            {
                sample.AddInformation(x[i], sum[i], u, w);
            }
        }
    }

    private void Linearize()
    {
        Parallel.ForEach(_samples, new ParallelOptions { TaskScheduler = null }, sample => sample.Linearize(Current));
        var samplesOf = _samples.SelectMany(sample => sample.Paints.Select(paint => (paint, sample))).ToLookup(pair => pair.paint, pair => pair.sample);
        _blocks = new LowerTriangle[_paints.Length];
        Parallel.For(0, _paints.Length, new ParallelOptions { TaskScheduler = null }, p =>
        {
            const int size = Estimate.PerPaint, bands = SpectralGrid.Bands;
            var block = new double[size * size];
            var ratio = RatioPrecision(p);
            for (var i = 0; i < bands; i++)
            {
                _scatteringPrecision.AsSpan(i * bands, bands).CopyTo(block.AsSpan(i * size, bands));
                ratio.AsSpan(i * bands, bands).CopyTo(block.AsSpan((bands + i) * size + bands, bands));
            }

            foreach (var sample in samplesOf[p])
            {
                sample.AddBlock(p, block);
            }

            _blocks[p] = LowerTriangle.Factor(block, size);
        });

        var information = Current.Zero();
        foreach (var sample in _samples)
        {
            sample.AddCommonInformation(information);
        }

        _commonBlocks = [.. _commons.Select((common, i) => information.Common[i] + 1 / (common.Deviation * common.Deviation))];
    }

    internal void AddBeliefs(Estimate x, Estimate sum)
    {
        const int bands = SpectralGrid.Bands;
        for (var p = 0; p < _paints.Length; p++)
        {
            var ratio = RatioPrecision(p);
            Span<double> xs = x.Scattering(p), xq = x.Ratio(p), sums = sum.Scattering(p), sumq = sum.Ratio(p);
            for (var i = 0; i < bands; i++)
            {
                sums[i] += LowerTriangle.Dot(_scatteringPrecision.AsSpan(i * bands, bands), xs);
                sumq[i] += LowerTriangle.Dot(ratio.AsSpan(i * bands, bands), xq);
            }
        }

        for (var i = 0; i < _commons.Length; i++)
        {
            sum.Common[i] += x.Common[i] / (_commons[i].Deviation * _commons[i].Deviation);
        }
    }

    private void Precondition(Estimate r, Estimate z)
    {
        r.Values.CopyTo(z.Values, 0);
        for (var p = 0; p < _paints.Length; p++)
        {
            _blocks[p].SolveForward(z.Paint(p));
            _blocks[p].SolveBackward(z.Paint(p));
        }

        for (var i = 0; i < _commons.Length; i++)
        {
            z.Common[i] /= _commonBlocks[i];
        }
    }

    private LowerTriangle RatioTriangle(int paint) => _paints[paint].ColorKnown ? _knownRatio : _unknownRatio;

    private double[] RatioPrecision(int paint) => _paints[paint].ColorKnown ? _knownPrecision : _unknownPrecision;

    private static double Longest(Estimate step)
    {
        var longest = 0.0;
        foreach (var value in step.Values)
        {
            longest = Math.Max(longest, Math.Abs(value));
        }

        return longest;
    }
}
