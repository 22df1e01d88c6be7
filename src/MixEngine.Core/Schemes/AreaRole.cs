namespace MixEngine.Core;

/// <summary>What is done on an area.</summary>
public enum AreaRole
{
    /// <summary>Base, layers and highlight: a ramp from dark to light.</summary>
    Layers,

    /// <summary>One colour all over.</summary>
    Single,

    /// <summary>Let-down paint over another area.</summary>
    Glaze,

    /// <summary>One colour into the seams between areas, after everything else.</summary>
    Lining,
}
