using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>A reflectance under another lamp.</summary>
/// <param name="Appearance">Its colour there.</param>
/// <param name="ShiftDeltaE00">How far it seems to move to an eye that adapts to the lamp (CAT16), CIEDE2000.</param>
/// <param name="Shift">The same in directions.</param>
public sealed record LampLook(Appearance Appearance, double ShiftDeltaE00, ColorShift Shift)
{
    /// <summary>Looks at a reflectance under a lamp.</summary>
    /// <param name="reflectance">What leaves the surface.</param>
    /// <param name="usual">The light and eye it was chosen for.</param>
    /// <param name="lamp">The lamp.</param>
    public static LampLook Of(Reflectance reflectance, ViewingCondition usual, Illuminant lamp)
    {
        var seen = Appearance.Of(reflectance, usual with { Illuminant = lamp });
        var shift = ColorShift.Between(Appearance.Of(reflectance, usual).Lab, Adapted(seen, usual));
        return new LampLook(seen, shift.DeltaE00, shift);
    }

    /// <summary>The colour that looks the same under another light.</summary>
    internal static Lab Adapted(Appearance seen, ViewingCondition other)
    {
        var (from, to) = (TristimulusWeights.For(seen.Condition).White, TristimulusWeights.For(other).White);
        return Lab.FromXyz(ChromaticAdaptation.Cat16.Adapt(seen.Xyz, from, to), to);
    }
}
