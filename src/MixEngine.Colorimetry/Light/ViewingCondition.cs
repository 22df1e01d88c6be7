namespace MixEngine.Colorimetry;

/// <summary>The light and the eye that a colour is stated for; a colour without them is only half said.</summary>
/// <param name="Illuminant">The light.</param>
/// <param name="Observer">The eye.</param>
public sealed record ViewingCondition(Illuminant Illuminant, Observer Observer)
{
    /// <summary>D65 and the 2-degree observer: the condition of sRGB, and so of every hex code.</summary>
    public static ViewingCondition Default { get; } = new(Illuminant.D65, Observer.Degree2);

    /// <summary>D65 and the 10-degree observer: the usual condition of instrument readings.</summary>
    public static ViewingCondition D65Degree10 { get; } = new(Illuminant.D65, Observer.Degree10);

    /// <summary>For example "D65/2".</summary>
    public override string ToString() => $"{Illuminant}/{(Observer == Observer.Degree2 ? "2" : "10")}";
}
