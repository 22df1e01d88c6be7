using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>Where the hue goes from a mid-tone to its shadow and its light.</summary>
public enum HuePath
{
    /// <summary>It stays.</summary>
    Straight,

    /// <summary>Warmer, towards yellow, in the light.</summary>
    WarmLight,

    /// <summary>Cooler, towards blue, in the shadow.</summary>
    CoolShadow,

    /// <summary>Both.</summary>
    WarmLightCoolShadow,
}

/// <summary>What each path asks of a hue. The angles are common practice, no source.</summary>
internal static class HuePathAngles
{
    /// <summary>The hue of warm light, a yellow, and of cool shadow, a blue; degrees in CIELAB.</summary>
    private const double Warm = 85, Cool = 285;

    /// <summary>How far the hue turns until the end of a ramp, degrees.</summary>
    private const double Turn = 25;

    /// <summary>The hue wanted, degrees; null for a neutral mid-tone, which has none to keep.</summary>
    /// <param name="path">The path.</param>
    /// <param name="middle">The mid-tone.</param>
    /// <param name="way">0 at the mid-tone to 1 at the light end, or to -1 at the dark end.</param>
    public static double? Wanted(this HuePath path, Lab middle, double way)
    {
        if (middle.HueDegrees is not { } hue)
        {
            return null;
        }

        var towards = way switch
        {
            > 0 when path is HuePath.WarmLight or HuePath.WarmLightCoolShadow => Warm,
            < 0 when path is HuePath.CoolShadow or HuePath.WarmLightCoolShadow => Cool,
            _ => hue,
        };

        // The short way round, and never past it.
        var turn = (towards - hue + 540) % 360 - 180;
        return (hue + Math.Clamp(turn, -Turn, Turn) * Math.Abs(way) + 360) % 360;
    }
}
