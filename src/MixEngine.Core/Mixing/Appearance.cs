using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>A reflectance as an eye sees it under a light.</summary>
/// <param name="Reflectance">What leaves the surface, per band, 0 to 1.</param>
/// <param name="Condition">Light and eye.</param>
/// <param name="Xyz">Tristimulus values, Y of the white = 100.</param>
/// <param name="Lab">The same relative to the white of the light.</param>
/// <param name="Display">What an sRGB screen can show of it to an eye adapted to that light.</param>
public sealed record Appearance(Reflectance Reflectance, ViewingCondition Condition, Xyz Xyz, Lab Lab, DisplayColor Display)
{
    /// <summary>Looks at a reflectance.</summary>
    public static Appearance Of(Reflectance reflectance, ViewingCondition condition)
    {
        var weights = TristimulusWeights.For(condition);
        var xyz = weights.ToXyz(reflectance);
        return new Appearance(reflectance, condition, xyz, Lab.FromXyz(xyz, weights.White), DisplayColor.From(xyz, weights.White));
    }
}
