using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>What the readings of a sample should be at an estimate, and how ln R of each reading and band moves with all that is unknown.</summary>
internal sealed class SampleModel
{
    private const int Bands = SpectralGrid.Bands;
    private const double LowestReflectance = 1e-4;

    private readonly int[] _paints;
    private readonly double[] _shares;
    private readonly SampleReading[] _readings;
    private readonly Nuisances _nuisances;
    private readonly bool _usualThickness;
    private readonly double[] _k = new double[Bands];
    private readonly double[] _s = new double[Bands];
    private readonly double[] _byScattering;

    /// <param name="paints">Places of its paints, the most plentiful first.</param>
    /// <param name="shares">Their shares of the dry film.</param>
    /// <param name="readings">Its readings.</param>
    /// <param name="nuisances">Its nuisances.</param>
    /// <param name="usualThickness">Whether it is a film of which no thickness is stated.</param>
    public SampleModel(int[] paints, double[] shares, SampleReading[] readings, Nuisances nuisances, bool usualThickness)
    {
        (_paints, _shares, _readings, _nuisances, _usualThickness) = (paints, shares, readings, nuisances, usualThickness);
        var width = readings.Length * Bands;
        Reflectance = new double[width];
        ByAbsorption = new double[width];
        _byScattering = new double[width];
        ByShare = new double[width];
        ByUsualThickness = new double[width];
        ByLogScattering = [.. paints.Select(_ => new double[width])];
        ByLogRatio = [.. paints.Select(_ => new double[width])];
    }

    /// <summary>Modelled reflectance, per reading and band.</summary>
    public double[] Reflectance { get; }

    /// <summary>d ln R / d ln K of the mixture.</summary>
    public double[] ByAbsorption { get; }

    /// <summary>d ln R by the share of the surface reflection that was taken in.</summary>
    public double[] ByShare { get; }

    /// <summary>d ln R by ln of the usual thickness.</summary>
    public double[] ByUsualThickness { get; }

    /// <summary>d ln R / d ln S of each paint.</summary>
    public double[][] ByLogScattering { get; }

    /// <summary>d ln R / d ln(K/S) of each paint.</summary>
    public double[][] ByLogRatio { get; }

    /// <summary>Models the readings for given nuisances.</summary>
    public void Evaluate(Estimate at, double[] nuisance)
    {
        Mix(at, nuisance);
        for (var reading = 0; reading < _readings.Length; reading++)
        {
            var share = at.Surface(_readings[reading].Surface) + nuisance[_nuisances.SharesAt + reading];
            var surface = new SurfaceReflection(Math.Max(0, share));
            if (_readings[reading].Backing is { } ground)
            {
                var usual = _usualThickness ? at.Thickness : 0;
                Film(reading, surface, Math.Exp(usual + nuisance[_nuisances.ThicknessAt] + nuisance[_nuisances.ThicknessAt + 1 + reading]), ground);
            }
            else
            {
                Hiding(reading, surface);
            }
        }

        // From the mixture's ln K and ln S to those of its paints.
        for (var p = 0; p < _paints.Length; p++)
        {
            for (var i = 0; i < Reflectance.Length; i++)
            {
                ByLogRatio[p][i] *= ByAbsorption[i];
                ByLogScattering[p][i] = ByLogRatio[p][i] + _byScattering[i] * ByLogScattering[p][i];
            }
        }
    }

    /// <summary>How ln R of each reading and band moves with one nuisance.</summary>
    public void NuisanceSlope(int n, Span<double> slope)
    {
        for (var i = 0; i < slope.Length; i++)
        {
            var reading = i / Bands;
            slope[i] = n < _nuisances.ThicknessAt ? (_paints.Length > 1 ? ByLogScattering[n + 1][i] : ByAbsorption[i])
                : n < _nuisances.SharesAt ? (n == _nuisances.ThicknessAt || n == _nuisances.ThicknessAt + 1 + reading ? ByThickness(i) : 0)
                : n == _nuisances.SharesAt + reading ? ByShare[i] : 0;
        }
    }

    private double ByThickness(int i) => _readings[i / Bands].Backing is null ? 0 : ByAbsorption[i] + _byScattering[i];

    // K = Σ cᵢKᵢ, S = Σ cᵢSᵢ [Duncan1940]; the slopes of the paints begin as their shares of K and S.
    private void Mix(Estimate at, double[] nuisance)
    {
        Array.Clear(_k);
        Array.Clear(_s);
        var crowding = _paints.Length > 1 ? 1 : Math.Exp(nuisance[0]);
        for (var p = 0; p < _paints.Length; p++)
        {
            Span<double> logS = at.Scattering(_paints[p]), logQ = at.Ratio(_paints[p]);
            var amount = _shares[p] * (p > 0 ? Math.Exp(nuisance[p - 1]) : 1);
            for (var band = 0; band < Bands; band++)
            {
                var s = amount * Math.Exp(logS[band]);
                var k = s * Math.Exp(logQ[band]) * crowding;
                (ByLogScattering[p][band], ByLogRatio[p][band]) = (s, k);
                _s[band] += s;
                _k[band] += k;
            }
        }

        for (var p = 0; p < _paints.Length; p++)
        {
            for (var i = Reflectance.Length - 1; i >= 0; i--)
            {
                var band = i % Bands;
                ByLogScattering[p][i] = ByLogScattering[p][band] / _s[band];
                ByLogRatio[p][i] = ByLogRatio[p][band] / _k[band];
            }
        }
    }

    private void Hiding(int reading, SurfaceReflection surface)
    {
        for (var band = 0; band < Bands; band++)
        {
            // dR∞/d ln(K/S) = -R(1 - R)/(1 + R), from q = (1 - R)²/(2R).
            var inside = KubelkaMunk.OpaqueReflectance(_k[band], _s[band]);
            var slope = -inside * (1 - inside) / (1 + inside);
            See(reading, band, surface, inside, slope, -slope);
        }
    }

    private void Film(int reading, SurfaceReflection surface, double thicknessUm, Reflectance ground)
    {
        const double step = 1e-4;
        for (var band = 0; band < Bands; band++)
        {
            var (k, s) = (_k[band] * thicknessUm, _s[band] * thicknessUm);
            var backing = Math.Clamp(surface.ToInternal(ground[band]), 0, 1);
            var inside = KubelkaMunk.FilmOver(k, s, 1, backing);
            var byK = (KubelkaMunk.FilmOver(k * (1 + step), s, 1, backing) - KubelkaMunk.FilmOver(k * (1 - step), s, 1, backing)) / (2 * step);
            var byS = (KubelkaMunk.FilmOver(k, s * (1 + step), 1, backing) - KubelkaMunk.FilmOver(k, s * (1 - step), 1, backing)) / (2 * step);
            See(reading, band, surface, inside, byK, byS);
            ByUsualThickness[reading * Bands + band] = _usualThickness ? ByThickness(reading * Bands + band) : 0;
        }
    }

    private void See(int reading, int band, SurfaceReflection surface, double inside, double byK, double byS)
    {
        var i = reading * Bands + band;
        var seen = Math.Max(surface.ToMeasured(inside), LowestReflectance);
        var slope = surface.Slope(inside) / seen;
        Reflectance[i] = seen;
        ByAbsorption[i] = slope * byK;
        _byScattering[i] = slope * byS;
        ByShare[i] = SurfaceReflection.External / seen;
    }
}
