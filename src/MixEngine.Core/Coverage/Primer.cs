using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>What a figure is primed with before it is painted: a neutral hiding layer.</summary>
/// <remarks>
/// The reflectances are assumptions (no source), the same in all bands and specular excluded:
/// black 2 % (L 15), grey 22 % (L 54), white 80 % (L 92, what [ISO6504-3] asks of a white chart).
/// </remarks>
public sealed class Primer
{
    private Primer(string name, double measured)
    {
        Name = name;
        MeasuredReflectance = measured;
        Surface = PaintedSurface.OfInternal(Reflectance.Constant(new SurfaceReflection(0).ToInternal(measured)));
    }

    /// <summary>"black", "grey" or "white".</summary>
    public string Name { get; }

    /// <summary>Reflectance of the bare primer seen away from the highlight, 0 to 1.</summary>
    public double MeasuredReflectance { get; }

    /// <summary>The bare primer.</summary>
    public PaintedSurface Surface { get; }

    /// <summary>Black primer.</summary>
    public static Primer Black { get; } = new("black", 0.02);

    /// <summary>Grey primer.</summary>
    public static Primer Grey { get; } = new("grey", 0.22);

    /// <summary>White primer.</summary>
    public static Primer White { get; } = new("white", 0.80);

    /// <summary>All of them, dark to light.</summary>
    public static IReadOnlyList<Primer> All { get; } = [Black, Grey, White];

    /// <summary>Finds a primer by its name, in any case.</summary>
    /// <exception cref="ArgumentException">No such primer; the message lists the known ones.</exception>
    public static Primer FromName(string name) =>
        All.FirstOrDefault(primer => string.Equals(primer.Name, name.Trim(), StringComparison.OrdinalIgnoreCase))
        ?? throw new ArgumentException($"There is no primer named '{name}'. Known: {string.Join(", ", All.Select(primer => primer.Name))}.", nameof(name));
}
