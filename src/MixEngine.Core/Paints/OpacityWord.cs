namespace MixEngine.Core;

/// <summary>The maker's word for how a paint hides.</summary>
public enum OpacityWord
{
    /// <summary>Hides in one or two coats.</summary>
    Opaque,

    /// <summary>Hides in a few coats.</summary>
    SemiOpaque,

    /// <summary>Lets the layer beneath show through several coats.</summary>
    SemiTransparent,

    /// <summary>Tints what lies beneath: an ink, a wash, a glaze.</summary>
    Transparent,
}
