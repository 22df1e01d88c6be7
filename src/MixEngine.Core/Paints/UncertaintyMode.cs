using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// One independent way in which what is believed of a paint may be wrong: a unit-normal factor that moves ln K and ln S of every band together. Immutable.
/// </summary>
/// <remarks>
/// The modes of a paint are a square root of its covariance: Cov = Σ d·dᵀ, d the changes of ln K and ln S. Two paints that carry the same key move together
/// (they were learnt from the same swatches).
/// </remarks>
public sealed class UncertaintyMode
{
    private readonly double[] _k;
    private readonly double[] _s;

    /// <summary>Takes what one standard deviation changes.</summary>
    /// <param name="key">What is uncertain; the same key is the same factor.</param>
    /// <param name="deltaLogK">Change of ln K per band.</param>
    /// <param name="deltaLogS">Change of ln S per band.</param>
    /// <exception cref="ArgumentException">Not 36 values, or a change so large that its factor is no number above 0.</exception>
    public UncertaintyMode(long key, ReadOnlySpan<double> deltaLogK, ReadOnlySpan<double> deltaLogS)
    {
        Key = key;

        // Every prediction asks for the factors, and next to nobody for their logarithms.
        _k = Factors(deltaLogK, nameof(deltaLogK));
        _s = Factors(deltaLogS, nameof(deltaLogS));
    }

    /// <summary>What is uncertain; the same key is the same factor.</summary>
    public long Key { get; }

    /// <summary>By what K is multiplied, per band, for one standard deviation up, and divided for one down.</summary>
    public ReadOnlySpan<double> FactorK => _k;

    /// <summary>The same of S.</summary>
    public ReadOnlySpan<double> FactorS => _s;

    private static double[] Factors(ReadOnlySpan<double> deltaLog, string name)
    {
        if (deltaLog.Length != SpectralGrid.Bands)
        {
            throw new ArgumentException($"{deltaLog.Length} bands are given; {SpectralGrid.Bands} are needed.", name);
        }

        // Four bands at a time.
        double[] factors = [.. deltaLog];
        foreach (ref var four in MemoryMarshal.Cast<double, Vector256<double>>(factors.AsSpan()))
        {
            four = Vector256.Exp(four);
        }

        return Array.TrueForAll(factors, factor => factor > 0 && double.IsFinite(factor) && double.IsFinite(1 / factor))
            ? factors
            : throw new ArgumentException($"A change of ln K or ln S is beyond all numbers: {string.Join(", ", deltaLog.ToArray())}.", name);
    }
}
