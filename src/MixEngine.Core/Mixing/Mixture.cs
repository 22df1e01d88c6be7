using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>A recipe stirred and dried: the optics of its film.</summary>
public sealed class Mixture
{
    private Mixture(AbsorptionScattering optics, SurfaceReflection surface, Finish? finish, double volumeSolids)
    {
        Optics = optics;
        Surface = surface;
        Finish = finish;
        VolumeSolids = volumeSolids;
    }

    /// <summary>Absorption and scattering of the dry film, 1/µm.</summary>
    public AbsorptionScattering Optics { get; }

    /// <summary>The surface through which the paints were measured, as the volume-weighted mean of their collected shares.</summary>
    public SurfaceReflection Surface { get; }

    /// <summary>The finish in which the paints were measured, where all of them state the same one.</summary>
    public Finish? Finish { get; }

    /// <summary>Volume share of the wet mixture that stays when it dries, 0 to 1. Water lowers it.</summary>
    public double VolumeSolids { get; }

    /// <summary>Mixes a recipe by the dry volume that each part leaves [Duncan1940].</summary>
    /// <remarks>A part is a drop of the bottle's own size where drops per ml were counted, and of the conventional size otherwise.</remarks>
    /// <exception cref="ArgumentException">The recipe is water alone: nothing stays.</exception>
    public static Mixture Of(Recipe recipe, Perturbation perturbation = default)
    {
        var parts = recipe.Parts;
        var wet = new double[parts.Count];
        var dry = new double[parts.Count];
        for (var i = 0; i < parts.Count; i++)
        {
            wet[i] = parts[i].WetVolume * perturbation.DoseOf(parts[i].Paint);
            dry[i] = wet[i] * parts[i].Paint.VolumeSolids;
        }

        var dryTotal = dry.Sum();
        if (!(dryTotal > 0))
        {
            throw new ArgumentException($"'{recipe}' leaves no film when it dries; add a paint or a medium.", nameof(recipe));
        }

        for (var i = 0; i < dry.Length; i++)
        {
            dry[i] /= dryTotal;
        }

        // The surface belongs to the pigmented paints: medium carries no reading of its own.
        var pigmented = 0.0;
        var collected = 0.0;
        for (var i = 0; i < dry.Length; i++)
        {
            if (parts[i].Paint.Kind == PaintKind.Paint)
            {
                pigmented += dry[i];
                collected += dry[i] * parts[i].Paint.Surface.CollectedShare;
            }
        }

        return new Mixture(
            AbsorptionScattering.Mix([.. parts.Select(part => perturbation.OpticsOf(part.Paint))], dry),
            new SurfaceReflection(pigmented > 0 ? collected / pigmented : 0),
            FinishOf(recipe),
            dryTotal / wet.Sum());
    }

    /// <summary>The finish in which the pigmented paints of a recipe were measured; null where they state none or not the same one.</summary>
    internal static Finish? FinishOf(Recipe recipe)
    {
        Finish? finish = null;
        var first = true;
        foreach (var part in recipe.Parts)
        {
            if (part.Paint.Kind == PaintKind.Paint)
            {
                finish = first || part.Paint.Finish == finish ? part.Paint.Finish : null;
                if (finish is null)
                {
                    return null;
                }

                first = false;
            }
        }

        return finish;
    }

    /// <summary>Internal reflectance of a hiding layer, per band, 0 to 1.</summary>
    public Reflectance OpaqueInternal()
    {
        Span<double> r = stackalloc double[SpectralGrid.Bands];
        for (var band = 0; band < r.Length; band++)
        {
            r[band] = KubelkaMunk.OpaqueReflectance(Optics.K[band], Optics.S[band]);
        }

        return new Reflectance(r);
    }
}
