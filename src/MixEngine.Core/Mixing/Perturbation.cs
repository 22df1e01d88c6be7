namespace MixEngine.Core;

/// <summary>
/// One way in which things may be other than believed, to be asked "and what would the colour be then?":
/// a paint's optics moved along an <see cref="UncertaintyMode"/>, or a paint's drops larger or smaller than counted on.
/// </summary>
public readonly struct Perturbation
{
    private readonly long? _modeKey;
    private readonly string? _dosedPaintId;
    private readonly double _by;

    private Perturbation(long? modeKey, string? dosedPaintId, double by) => (_modeKey, _dosedPaintId, _by) = (modeKey, dosedPaintId, by);

    /// <summary>All as believed.</summary>
    public static Perturbation None => default;

    /// <summary>The optics of every paint that carries the mode are moved by so many standard deviations.</summary>
    public static Perturbation OfMode(long key, double by) => new(key, null, by);

    /// <summary>The volume of one paint's parts is multiplied by exp(by).</summary>
    public static Perturbation OfDose(string paintId, double by) => new(null, paintId, by);

    /// <summary>The paint's optics under this perturbation.</summary>
    public AbsorptionScattering OpticsOf(Paint paint)
    {
        var optics = paint.Optics;
        if (_modeKey is { } key)
        {
            foreach (var mode in paint.Uncertainty)
            {
                if (mode.Key == key)
                {
                    optics = optics.Shifted(mode.DeltaLogK, mode.DeltaLogS, _by);
                }
            }
        }

        return optics;
    }

    /// <summary>The factor on the paint's volume under this perturbation.</summary>
    public double DoseOf(Paint paint) => _dosedPaintId == paint.Id ? Math.Exp(_by) : 1;
}
