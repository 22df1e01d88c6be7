using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>Something painted: an internal reflectance at the bottom, and films over it. Adding a film gives a new stack.</summary>
/// <remarks>Each film lies over the reflectance of all beneath it, R = R0 + T²Rg/(1 - R0·Rg) [Kubelka1948]; the surface is met once, at the top.</remarks>
public sealed class FilmStack
{
    /// <summary>Starts from what lies at the bottom.</summary>
    /// <param name="internalReflectance">Its reflectance below the surface, 0 to 1.</param>
    public FilmStack(Reflectance internalReflectance) => InternalReflectance = internalReflectance;

    /// <summary>Reflectance of the whole stack below the surface, 0 to 1.</summary>
    public Reflectance InternalReflectance { get; }

    /// <summary>The stack with one more film on top.</summary>
    public FilmStack Under(Film film)
    {
        Span<double> r = stackalloc double[SpectralGrid.Bands];
        for (var band = 0; band < r.Length; band++)
        {
            // Rounding alone may step over 1 by the last digit.
            r[band] = Math.Min(1, KubelkaMunk.Over(film.R0[band], film.T[band], InternalReflectance[band]));
        }

        return new FilmStack(new Reflectance(r));
    }
}
