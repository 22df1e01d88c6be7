using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// A point in the space of all unknowns: ln S and ln(K/S) of every band of every paint, then what samples have in common: one surface share
/// for each way of reading, and the usual thickness of a film.
/// </summary>
internal sealed class Estimate(int paints, int surfaces)
{
    /// <summary>Unknowns of one paint: its ln S, then its ln(K/S).</summary>
    public const int PerPaint = 2 * SpectralGrid.Bands;

    /// <summary>All unknowns in one row.</summary>
    public double[] Values { get; init; } = new double[paints * PerPaint + surfaces + 1];

    /// <summary>Number of paints.</summary>
    public int Paints => paints;

    /// <summary>Number of ways of reading.</summary>
    public int Surfaces => surfaces;

    /// <summary>Both curves of a paint.</summary>
    public Span<double> Paint(int paint) => Values.AsSpan(paint * PerPaint, PerPaint);

    /// <summary>ln S of a paint.</summary>
    public Span<double> Scattering(int paint) => Values.AsSpan(paint * PerPaint, SpectralGrid.Bands);

    /// <summary>ln(K/S) of a paint.</summary>
    public Span<double> Ratio(int paint) => Values.AsSpan(paint * PerPaint + SpectralGrid.Bands, SpectralGrid.Bands);

    /// <summary>Surface share of a way of reading.</summary>
    public ref double Surface(int surface) => ref Values[paints * PerPaint + surface];

    /// <summary>ln of the usual thickness, in µm, of films of which none is stated.</summary>
    public ref double Thickness => ref Values[^1];

    /// <summary>All that samples have in common: the surface shares, then the thickness.</summary>
    public Span<double> Common => Values.AsSpan(paints * PerPaint);

    /// <summary>Another point, all zero.</summary>
    public Estimate Zero() => new(paints, surfaces);

    /// <summary>The same point, to be moved.</summary>
    public Estimate Copy() => new(paints, surfaces) { Values = [.. Values] };
}
