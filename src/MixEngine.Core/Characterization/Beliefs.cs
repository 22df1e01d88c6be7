using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// What is believed before the swatches speak: how far readings, doses and the theory may be off, and how paints usually are.
/// All are standard deviations of natural logarithms unless said otherwise.
/// </summary>
/// <remarks>
/// Computed from measured hand-made oil paints and their mixtures [Geldof2018] by cross-validation (benchmarks/MixEngine.Accuracy);
/// figures without effect on those data are assumptions and say so.
/// </remarks>
internal sealed record Beliefs
{
    public static Beliefs Default { get; } = new();

    /// <summary>Scatter of one band of a spectrum, relative.</summary>
    public double ReadingRelative { get; init; } = 0.004;

    /// <summary>The same, absolute reflectance: what is told of very dark bands.</summary>
    public double ReadingAbsolute { get; init; } = 0.004;

    /// <summary>Error common to all bands of a reading: calibration, position, thickness.</summary>
    public double ReadingGain { get; init; } = 0.018;

    /// <summary>Error of a colour read without a spectrum, in CIELAB units, by <see cref="ReadingSource"/> (assumption).</summary>
    public IReadOnlyList<double> ColorReading { get; init; } = [0.6, 2.5, 5];

    /// <summary>
    /// Share of the surface reflection in an instrument's readings where its geometry is not stated: anything from less than half to all of it, as the readings
    /// themselves will tell (assumption).
    /// </summary>
    public double UnstatedShare { get; init; } = 0.8;

    /// <summary>Standard deviation of that share, and the smaller one where the geometry is stated.</summary>
    public double UnstatedShareScatter { get; init; } = 0.2;

    /// <summary>Standard deviation of a stated share.</summary>
    public double StatedShareScatter { get; init; } = 0.1;

    /// <summary>The same from film to film: no two surfaces dry alike.</summary>
    public double SurfaceScatter { get; init; } = 0.1;

    /// <summary>A paint's strength in one mixture against its strength in all: dispersion, flocculation, and what two constants cannot say.</summary>
    public double Strength { get; init; } = TheoryError.Strength;

    /// <summary>Degrees of freedom of that scatter, as Student's t: a wrong label must not drag the rest along.</summary>
    public double StrengthFreedom { get; init; } = 3.5;

    /// <summary>Error of a weighed share, absolute.</summary>
    public double WeighedShare { get; init; } = 0.0007;

    /// <summary>What theory leaves open in ln(K/S) of a mixture, as a smooth curve.</summary>
    public double MixtureShape { get; init; } = 0.055;

    /// <summary>Correlation length of that curve, nm.</summary>
    public double MixtureLengthNm { get; init; } = 27;

    /// <summary>The same of single bands.</summary>
    public double MixtureBand { get; init; } = 0.015;

    /// <summary>The smooth curve of a paint alone: crowded pigment scatters otherwise than let down.</summary>
    public double MasstoneShape { get; init; } = 0.2;

    /// <summary>And its level: what measured masstones differ by, root mean square, from what all their mixtures say.</summary>
    public double MasstoneLevel { get; init; } = 0.26;

    /// <summary>Level of S around <see cref="ScatteringPrior"/>.</summary>
    public double ScatteringLevel { get; init; } = 1;

    /// <summary>Shape of S over the spectrum.</summary>
    public double ScatteringShape { get; init; } = 0.6;

    /// <summary>Correlation length of that shape, nm.</summary>
    public double ScatteringLengthNm { get; init; } = 18;

    /// <summary>Shape of K/S around the smoothest curve of the paint's colour.</summary>
    public double AbsorptionShape { get; init; } = 0.8;

    /// <summary>Correlation length of that shape, nm.</summary>
    public double AbsorptionLengthNm { get; init; } = 27;

    /// <summary>Level of K/S around the paint's colour.</summary>
    public double AbsorptionLevel { get; init; } = 0.5;

    /// <summary>Shape of K/S where a spectrum will tell, or where nothing is known.</summary>
    public double UnknownAbsorptionShape { get; init; } = 1.5;

    /// <summary>Level of K/S of such a paint.</summary>
    public double UnknownAbsorptionLevel { get; init; } = 3;

    /// <summary>ln(K/S) of such a paint.</summary>
    public double UnknownAbsorption { get; init; } = 1.2;

    /// <summary>ln of S against white of a paint whose colour is not known: the middle of what is known of coloured ones.</summary>
    public double UnknownScattering { get; init; } = -3;

    /// <summary>Usual dry thickness of films of which none is stated, µm (assumption).</summary>
    public double ThicknessUm { get; init; } = 50;

    /// <summary>Dry thickness of one coat by brush, µm, where coats were counted and no thickness measured: the conventional coat of layers (assumption).</summary>
    public double CoatUm { get; init; } = 20;

    /// <summary>How far the usual thickness is unknown.</summary>
    public double ThicknessLevel { get; init; } = 0.7;

    /// <summary>How much one such film differs from the next.</summary>
    public double ThicknessOfFilm { get; init; } = 0.3;

    /// <summary>How far a stated thickness is trusted.</summary>
    public double StatedThickness { get; init; } = 0.1;

    /// <summary>How much one film differs over its grounds.</summary>
    public double ThicknessScatter { get; init; } = 0.2;

    /// <summary>Number of draws from the posterior: the spread of a colour is then known to about a tenth.</summary>
    public int Draws { get; init; } = 48;

    /// <summary>Covariance of a smooth curve over the bands with a level of its own (squared-exponential Gaussian process [RasmussenWilliams2006]).</summary>
    public static double[] SmoothCovariance(double shape, double lengthNm, double level, double band)
    {
        var covariance = new double[SpectralGrid.Bands * SpectralGrid.Bands];
        for (var i = 0; i < SpectralGrid.Bands; i++)
        {
            for (var j = 0; j < SpectralGrid.Bands; j++)
            {
                var d = (i - j) * SpectralGrid.StepNm / lengthNm;
                covariance[i * SpectralGrid.Bands + j] = shape * shape * Math.Exp(-0.5 * d * d) + level * level + (i == j ? band * band : 0);
            }
        }

        return covariance;
    }
}
