namespace MixEngine.Core;

/// <summary>
/// One way in which things may be other than believed, to be asked "and what would the colour be then?":
/// a paint's optics moved along an <see cref="UncertaintyMode"/>, a paint's drops larger or smaller than counted on, or coats thicker or thinner.
/// </summary>
public readonly struct Perturbation
{
    private readonly long? _modeKey;
    private readonly string? _dosedPaintId;
    private readonly bool _coats;

    private Perturbation(long? modeKey, string? dosedPaintId, bool coats, double by) =>
        (_modeKey, _dosedPaintId, _coats, By) = (modeKey, dosedPaintId, coats, by);

    /// <summary>All as believed.</summary>
    public static Perturbation None => default;

    /// <summary>The optics of every paint that carries the mode are moved by so many standard deviations.</summary>
    public static Perturbation OfMode(long key, double by) => new(key, null, false, by);

    /// <summary>The volume of one paint's parts is multiplied by exp(by).</summary>
    public static Perturbation OfDose(string paintId, double by) => new(null, paintId, false, by);

    /// <summary>The thickness of every coat is multiplied by exp(by): some brushes lay on more than others.</summary>
    public static Perturbation OfCoats(double by) => new(null, null, true, by);

    /// <summary>As far to the other side.</summary>
    public Perturbation Opposite => new(_modeKey, _dosedPaintId, _coats, -By);

    /// <summary>How far: standard deviations of a mode, or the logarithm of a factor.</summary>
    public double By { get; }

    /// <summary>The mode along which the paint is moved; null where it is not.</summary>
    public UncertaintyMode? ModeOf(Paint paint)
    {
        if (_modeKey is { } key)
        {
            foreach (var mode in paint.Uncertainty)
            {
                if (mode.Key == key)
                {
                    return mode;
                }
            }
        }

        return null;
    }

    /// <summary>The paint's optics under this perturbation.</summary>
    public AbsorptionScattering OpticsOf(Paint paint) => ModeOf(paint) is { } mode ? paint.Optics.Scaled(mode.FactorK, mode.FactorS, By) : paint.Optics;

    /// <summary>The factor on the paint's volume under this perturbation.</summary>
    public double DoseOf(Paint paint) => _dosedPaintId == paint.Id ? Math.Exp(By) : 1;

    /// <summary>The factor on the thickness of every coat under this perturbation.</summary>
    public double CoatFactor => _coats ? Math.Exp(By) : 1;
}
