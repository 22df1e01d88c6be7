using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>How a colour is looked at: light and eye, and the finish of the surface.</summary>
/// <param name="Condition">Illuminant and observer.</param>
/// <param name="Finish">The finish asked for; null: the one in which the paints were measured.</param>
public sealed record View(ViewingCondition Condition, Finish? Finish = null)
{
    /// <summary>D65, 2 degrees, as measured.</summary>
    public static View Default { get; } = new(ViewingCondition.Default);

    /// <summary>The surface through which a film is seen.</summary>
    /// <param name="measured">The surface in which the paints were measured.</param>
    /// <param name="measuredFinish">Their stated finish; asking for that very finish changes nothing.</param>
    public SurfaceReflection SurfaceOver(SurfaceReflection measured, Finish? measuredFinish) =>
        Finish is { } asked && asked != measuredFinish ? asked.Surface() : measured;

    /// <summary>Looks at an internal reflectance through a surface.</summary>
    public Appearance Through(SurfaceReflection surface, Reflectance internalReflectance)
    {
        Span<double> seen = stackalloc double[SpectralGrid.Bands];
        Leave(surface, internalReflectance, seen);
        return Appearance.Of(new Reflectance(seen), Condition);
    }

    /// <summary>The colour alone of <see cref="Through"/>, for searches that ask for thousands of them.</summary>
    public Lab LabThrough(SurfaceReflection surface, Reflectance internalReflectance)
    {
        Span<double> seen = stackalloc double[SpectralGrid.Bands];
        Leave(surface, internalReflectance, seen);
        var weights = TristimulusWeights.For(Condition);
        return Lab.FromXyz(weights.ToXyz(seen), weights.White);
    }

    private static void Leave(SurfaceReflection surface, Reflectance internalReflectance, Span<double> seen)
    {
        for (var band = 0; band < seen.Length; band++)
        {
            seen[band] = Math.Clamp(surface.ToMeasured(internalReflectance[band]), 0, 1);
        }
    }
}
