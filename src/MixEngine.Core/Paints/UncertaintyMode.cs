namespace MixEngine.Core;

/// <summary>
/// One independent way in which what is believed of a paint may be wrong: a unit-normal factor that moves ln K and ln S of every band together.
/// </summary>
/// <remarks>
/// The modes of a paint are a square root of its covariance: Cov = Σ d·dᵀ. Two paints that carry the same key move together
/// (they were learnt from the same swatches).
/// </remarks>
/// <param name="Key">What is uncertain; the same key is the same factor.</param>
/// <param name="DeltaLogK">Change of ln K per band for one standard deviation.</param>
/// <param name="DeltaLogS">Change of ln S per band for one standard deviation.</param>
public sealed record UncertaintyMode(long Key, double[] DeltaLogK, double[] DeltaLogS);
