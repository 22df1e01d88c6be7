using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>How the differences under several lights become one.</summary>
public enum LightRule
{
    /// <summary>The largest counts: the match holds under each light.</summary>
    Worst,

    /// <summary>Their mean counts, each light by its weight.</summary>
    Weighted,
}

/// <summary>One of several lights under which a match is to hold.</summary>
/// <param name="Light">The light.</param>
/// <param name="Weight">How much it counts under <see cref="LightRule.Weighted"/>, above 0; only ratios matter.</param>
public sealed record LightShare(Illuminant Light, double Weight = 1);
