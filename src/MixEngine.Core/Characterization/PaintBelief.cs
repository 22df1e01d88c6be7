using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>What is believed of one paint before its mixtures are looked at: means of ln S and ln(K/S) per band.</summary>
/// <param name="LogScattering">Mean of ln S, S in 1/µm.</param>
/// <param name="LogRatio">Mean of ln(K/S).</param>
/// <param name="ColorKnown">Whether the colour of the paint alone is known; if not, ln(K/S) may lie anywhere.</param>
internal sealed record PaintBelief(double[] LogScattering, double[] LogRatio, bool ColorKnown)
{
    /// <summary>From what the paint looks like alone: the smoothest curve of that colour, and the scattering usual for it.</summary>
    public static PaintBelief From(MeasuredColor masstone, SurfaceReflection surface, OpacityWord? opacity, Beliefs beliefs)
    {
        var lab = masstone.LabUnder(masstone.Condition ?? ViewingCondition.D65Degree10);
        var smooth = masstone.Smoothest();
        double[] RatioOf(Reflectance measured) => [.. measured.Values.ToArray().Select(reading => LogRatioOf(reading, surface))];
        var scattering = Flat(Math.Log(ScatteringPrior.Scattering(lab, opacity)));

        // A spectrum speaks for itself; it needs no curve to lean on but itself, where the surface hides how dark it is.
        return masstone.Spectrum is { } spectrum
            ? new PaintBelief(scattering, RatioOf(spectrum), false)
            : new PaintBelief(scattering, RatioOf(smooth), true);
    }

    /// <summary>From optics that rest on the paint's stated colour.</summary>
    public static PaintBelief From(AbsorptionScattering optics)
    {
        var scattering = new double[SpectralGrid.Bands];
        var ratio = new double[SpectralGrid.Bands];
        for (var band = 0; band < ratio.Length; band++)
        {
            scattering[band] = Math.Log(optics.S[band]);
            ratio[band] = Math.Log(optics.K[band] / optics.S[band]);
        }

        return new PaintBelief(scattering, ratio, true);
    }

    /// <summary>Of a paint that was only met in mixtures.</summary>
    public static PaintBelief Unknown(Beliefs beliefs) =>
        new(Flat(Math.Log(ScatteringPrior.White) + beliefs.UnknownScattering), Flat(beliefs.UnknownAbsorption), false);

    /// <summary>ln(K/S) behind a reading of a hiding layer; readings at or below the surface term count as very dark.</summary>
    public static double LogRatioOf(double measured, SurfaceReflection surface)
    {
        const double darkest = 0.01;
        var inside = surface.ToInternal(measured);
        return Math.Log(KubelkaMunk.AbsorptionToScattering(Math.Clamp(inside, darkest, SurfaceReflection.BrightestInternal)));
    }

    private static double[] Flat(double value)
    {
        var values = new double[SpectralGrid.Bands];
        Array.Fill(values, value);
        return values;
    }
}
