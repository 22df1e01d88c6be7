using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>What a sample's readings should be at an estimate, and how ln R of each reading and band moves with the optics.</summary>
internal sealed class SampleModel
{
    private const int Bands = SpectralGrid.Bands;
    private const double LowestReflectance = 1e-4;

    private readonly double[] _k = new double[Bands];
    private readonly double[] _s = new double[Bands];

    public SampleModel(int paints, int readings)
    {
        Reflectance = new double[readings * Bands];
        ByAbsorption = new double[readings * Bands];
        ByScattering = new double[readings * Bands];
        ByShare = new double[readings * Bands];
        AbsorptionShares = [.. Enumerable.Range(0, paints).Select(_ => new double[Bands])];
        ScatteringShares = [.. Enumerable.Range(0, paints).Select(_ => new double[Bands])];
    }

    /// <summary>Modelled reflectance, per reading and band.</summary>
    public double[] Reflectance { get; }

    /// <summary>d ln R / d ln K of the mixture.</summary>
    public double[] ByAbsorption { get; }

    /// <summary>d ln R / d ln S of the mixture.</summary>
    public double[] ByScattering { get; }

    /// <summary>d ln R by the share of the surface reflection that was taken in.</summary>
    public double[] ByShare { get; }

    /// <summary>Share of each paint in the K of the mixture, per band.</summary>
    public double[][] AbsorptionShares { get; }

    /// <summary>Share of each paint in the S of the mixture, per band.</summary>
    public double[][] ScatteringShares { get; }

    /// <summary>Mixes the paints [Duncan1940].</summary>
    /// <param name="at">The estimate.</param>
    /// <param name="paints">Places of the paints.</param>
    /// <param name="amounts">Their shares of the dry film, as really dosed.</param>
    public void Mix(Estimate at, int[] paints, ReadOnlySpan<double> amounts)
    {
        Array.Clear(_k);
        Array.Clear(_s);
        for (var p = 0; p < paints.Length; p++)
        {
            Span<double> logS = at.Scattering(paints[p]), logQ = at.Ratio(paints[p]);
            for (var band = 0; band < Bands; band++)
            {
                var s = amounts[p] * Math.Exp(logS[band]);
                var k = s * Math.Exp(logQ[band]);
                (ScatteringShares[p][band], AbsorptionShares[p][band]) = (s, k);
                _s[band] += s;
                _k[band] += k;
            }
        }

        for (var p = 0; p < paints.Length; p++)
        {
            for (var band = 0; band < Bands; band++)
            {
                ScatteringShares[p][band] /= _s[band];
                AbsorptionShares[p][band] /= _k[band];
            }
        }
    }

    /// <summary>Models a reading of a layer that hides.</summary>
    public void Hiding(int reading, SurfaceReflection surface)
    {
        for (var band = 0; band < Bands; band++)
        {
            // dR∞/d ln(K/S) = -R(1 - R)/(1 + R), from q = (1 - R)²/(2R).
            var inside = KubelkaMunk.OpaqueReflectance(_k[band], _s[band]);
            var slope = -inside * (1 - inside) / (1 + inside);
            See(reading, band, surface, inside, slope, -slope);
        }
    }

    /// <summary>Models a reading of a film over a ground.</summary>
    public void Film(int reading, SurfaceReflection surface, double thicknessUm, Reflectance ground)
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
        }
    }

    private void See(int reading, int band, SurfaceReflection surface, double inside, double byK, double byS)
    {
        var i = reading * Bands + band;
        var seen = Math.Max(surface.ToMeasured(inside), LowestReflectance);
        var slope = surface.Slope(inside) / seen;
        Reflectance[i] = seen;
        ByAbsorption[i] = slope * byK;
        ByScattering[i] = slope * byS;
        ByShare[i] = SurfaceReflection.External / seen;
    }
}
