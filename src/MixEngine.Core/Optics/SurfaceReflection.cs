namespace MixEngine.Core;

/// <summary>
/// The air/binder surface between what an eye or instrument sees (Rm) and what the film does inside (Ri):
/// Rm = e·k1 + (1-k1)(1-k2)·Ri / (1 - k2·Ri) [Saunderson1942].
/// </summary>
/// <param name="CollectedShare">
/// e, 0 to 1: the share of the first-surface reflection that is seen. 0: none (gloss seen away from the highlight, a hex code, a 45/0 reading);
/// 1: all of it (matt, or specular included).
/// </param>
public readonly record struct SurfaceReflection(double CollectedShare)
{
    /// <summary>External Fresnel reflectance k1 at normal incidence of a binder of n = 1.5: ((n-1)/(n+1))² = 0.04.</summary>
    public const double External = 0.04;

    /// <summary>Internal diffuse reflectance k2 for n = 1.5: 0.60 in theory [Saunderson1942]; 0.4 to 0.6 is fitted in practice.</summary>
    public const double Internal = 0.60;

    /// <summary>The highest internal reflectance a paint film is taken to have: no pigment is a perfect white.</summary>
    /// <remarks>Assumption; titanium white is measured near 0.93 specular excluded, that is 0.987 inside (from memory).</remarks>
    public const double BrightestInternal = 0.99;

    /// <summary>The lowest, for the same reason: K/S stays finite (about 500).</summary>
    public const double DarkestInternal = 0.001;

    /// <summary>What is seen of an internal reflectance (0 to 1).</summary>
    public double ToMeasured(double internalReflectance) =>
        CollectedShare * External + (1 - External) * (1 - Internal) * internalReflectance / (1 - Internal * internalReflectance);

    /// <summary>What lies behind a reading. Not limited: a reading below e·k1 gives a negative value, one above what a white film can show a value above 1.</summary>
    public double ToInternal(double measured)
    {
        var inner = measured - CollectedShare * External;
        return inner / ((1 - External) * (1 - Internal) + Internal * inner);
    }

    /// <summary>The slope dRm/dRi at an internal reflectance.</summary>
    public double Slope(double internalReflectance)
    {
        var d = 1 - Internal * internalReflectance;
        return (1 - External) * (1 - Internal) / (d * d);
    }
}
