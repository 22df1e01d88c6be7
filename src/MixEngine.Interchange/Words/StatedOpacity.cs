namespace MixEngine.Interchange;

/// <summary>The maker's or the owner's word for how well one coat hides.</summary>
public enum StatedOpacity
{
    /// <summary>Hides in about one or two coats.</summary>
    Opaque,

    /// <summary>Mostly hides.</summary>
    SemiOpaque,

    /// <summary>Mostly shows what lies beneath.</summary>
    SemiTransparent,

    /// <summary>Shows what lies beneath.</summary>
    Transparent,
}

internal static class StatedOpacities
{
    public static readonly Vocabulary<StatedOpacity> Words = new(
        (StatedOpacity.Opaque, ["opaque", "hiding", "covering", "full", "solid", "o"]),
        (StatedOpacity.SemiOpaque, ["semi-opaque", "half-opaque", "mostly opaque", "nearly opaque", "so"]),
        (StatedOpacity.SemiTransparent, ["semi-transparent", "half-transparent", "mostly transparent", "translucent", "semi-translucent", "st"]),
        (StatedOpacity.Transparent, ["transparent", "clear", "see-through", "sheer", "t"]));
}
