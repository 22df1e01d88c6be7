namespace MixEngine.Core;

/// <summary>What a can or an airbrush may lay on.</summary>
public enum SprayedCoat
{
    /// <summary>The primer.</summary>
    Primer,

    /// <summary>The paints themselves.</summary>
    Paint,

    /// <summary>The varnish.</summary>
    Varnish,
}
