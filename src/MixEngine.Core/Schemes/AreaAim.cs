using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>What an area is to look like: colours to reach, paints to use, or another area.</summary>
public abstract record AreaAim
{
    private AreaAim()
    {
    }

    /// <summary>Colours to reach, dark to light; one for a single colour, a glaze, or layers around a middle.</summary>
    /// <param name="Targets">One or more.</param>
    public sealed record Colors(IReadOnlyList<AimColor> Targets) : AreaAim;

    /// <summary>Paints or recipes to use, dark to light, as their author wrote them.</summary>
    /// <param name="Recipes">One or more, such as "tarred rope" or "2 tarred rope + 1 kelp".</param>
    public sealed record Paints(IReadOnlyList<string> Recipes) : AreaAim;

    /// <summary>Another area, as it is or changed.</summary>
    /// <param name="Figure">The figure it is on; null: the same.</param>
    /// <param name="Area">The area.</param>
    /// <param name="But">In what it differs; null: in nothing, and the very same mixes serve both.</param>
    public sealed record Like(string? Figure, string Area, ColorChange? But) : AreaAim;
}

/// <summary>A colour to reach, and the light and eye for which it holds.</summary>
/// <param name="Text">As its author wrote it.</param>
/// <param name="Xyz">Tristimulus values, Y of the white = 100.</param>
/// <param name="Condition">Light and eye.</param>
public sealed record AimColor(string Text, Xyz Xyz, ViewingCondition Condition)
{
    /// <summary>A hex colour, which holds in daylight.</summary>
    public static AimColor Of(HexColor hex) => new(hex.ToString(), hex.ToXyz(), ViewingCondition.Default);

    /// <summary>A Lab under a light.</summary>
    public static AimColor Of(string text, Lab lab, ViewingCondition condition) =>
        new(text, lab.ToXyz(TristimulusWeights.For(condition).White), condition);
}
