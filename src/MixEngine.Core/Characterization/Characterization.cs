using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// Paints learnt from swatches: the K and S that explain all swatches best, regularised by what is usual for paints, and how sure they are.
/// </summary>
/// <remarks>
/// All paints that swatches mix are fitted together. What a swatch says counts by how it was read and dosed; a paint of which no swatch
/// speaks stays as it was entered. The uncertainty is a fixed-seed ensemble drawn from the posterior: one set of modes, shared by all
/// fitted paints, in which their errors move together as they were learnt together.
/// </remarks>
public sealed class Characterization
{
    private Characterization(Paint[] entered, Beliefs beliefs, IReadOnlyList<Paint> paints, IReadOnlyList<SwatchFit> fits)
    {
        (Entered, Believed, Paints, Fits) = (entered, beliefs, paints, fits);
        Suspects = [.. fits.Where(fit => fit.Surprise > SwatchFit.Suspicious).OrderByDescending(fit => fit.Surprise)];
    }

    /// <summary>The paints in the order given.</summary>
    public IReadOnlyList<Paint> Paints { get; }

    /// <summary>How well each swatch agrees, in the order given.</summary>
    public IReadOnlyList<SwatchFit> Fits { get; }

    /// <summary>Swatches likelier mislabelled than unlucky, the likeliest first.</summary>
    public IReadOnlyList<SwatchFit> Suspects { get; }

    /// <summary>The paints as they were given.</summary>
    internal IReadOnlyList<Paint> Entered { get; }

    /// <summary>What was believed beforehand.</summary>
    internal Beliefs Believed { get; }

    /// <summary>The paint with an id.</summary>
    public Paint Paint(string id) => Paints.FirstOrDefault(paint => paint.Id == id)
        ?? throw new ArgumentException($"There is no paint '{id}' among those characterised.", nameof(id));

    /// <summary>Learns paints from swatches.</summary>
    /// <param name="paints">Paints as entered, each id once.</param>
    /// <param name="swatches">All that was measured of them.</param>
    /// <param name="cancel">Stops it.</param>
    /// <exception cref="ArgumentException">A swatch cannot be true, or names a paint that is not there.</exception>
    public static Characterization Of(IEnumerable<Paint> paints, IEnumerable<Swatch> swatches, CancellationToken cancel = default) =>
        Of([.. paints], [.. swatches], Beliefs.Default, cancel);

    internal static Characterization Of(Paint[] paints, Swatch[] swatches, Beliefs beliefs, CancellationToken cancel = default)
    {
        var shelf = new SwatchShelf(paints, swatches, beliefs);
        if (shelf.Samples.Length == 0)
        {
            return new Characterization(paints, beliefs, paints, []);
        }

        var fit = new JointFit(shelf.PaintBeliefs, shelf.Samples, shelf.Surfaces, beliefs);
        fit.Run(cancel);
        var ensemble = Ensemble.Of(fit, shelf, beliefs.Draws, cancel);
        return new Characterization(
            paints,
            beliefs,
            [.. paints.Select(paint => shelf.PlaceOf(paint.Id) is { } place ? Learnt(paint, place, fit, ensemble, shelf) : paint)],
            SwatchFits.Of(fit, shelf, swatches, cancel));
    }

    /// <summary>The paints as they might be just as well: all moved along draws from what is uncertain of them.</summary>
    /// <param name="draw">Which draw; below 0, the likeliest.</param>
    internal IReadOnlyList<Paint> Supposing(int draw) => draw < 0 ? Paints : [.. Paints.Select(paint => draw >= paint.Uncertainty.Length ? paint : paint with
    {
        // A mode is a draw scaled down by the root of their number.
        Optics = paint.Optics.Scaled(paint.Uncertainty[draw].FactorK, paint.Uncertainty[draw].FactorS, Math.Sqrt(paint.Uncertainty.Length)),
    })];

    /// <summary>Brings a fit to the optics of paints and works out its spread there.</summary>
    internal static void Place(IReadOnlyList<Paint> paints, SwatchShelf shelf, JointFit fit)
    {
        var at = fit.Current.Copy();
        foreach (var paint in paints)
        {
            if (shelf.PlaceOf(paint.Id) is not { } place)
            {
                continue;
            }

            var optics = paint.Optics;
            for (var band = 0; band < SpectralGrid.Bands; band++)
            {
                at.Scattering(place)[band] = Math.Log(optics.S[band]);
                at.Ratio(place)[band] = Math.Log(optics.K[band] / optics.S[band]);
            }
        }

        fit.StayAt(at);
    }

    private static Paint Learnt(Paint paint, int place, JointFit fit, Ensemble ensemble, SwatchShelf shelf)
    {
        var (k, s) = (new double[SpectralGrid.Bands], new double[SpectralGrid.Bands]);
        for (var band = 0; band < k.Length; band++)
        {
            s[band] = Math.Exp(fit.Current.Scattering(place)[band]);
            k[band] = s[band] * Math.Exp(fit.Current.Ratio(place)[band]);
        }

        return paint with
        {
            Optics = new AbsorptionScattering(k, s),
            Surface = new SurfaceReflection(Math.Clamp(fit.Current.Surface(shelf.SurfaceOf(place)), 0, 1)),
            Grade = shelf.GradeOf(place),
            Uncertainty = ensemble.ModesOf(place),
            Remarks = [.. paint.Remarks, .. shelf.RemarksOn(place)],
        };
    }
}
