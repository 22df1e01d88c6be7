namespace MixEngine.Interchange;

/// <summary>What a bottle holds.</summary>
public enum StatedKind
{
    /// <summary>Pigment in a binder.</summary>
    Paint,

    /// <summary>Binder without pigment.</summary>
    Medium,

    /// <summary>Water, or a thinner that leaves nothing behind.</summary>
    Water,
}

internal static class StatedKinds
{
    public static readonly Vocabulary<StatedKind> Words = new(
        (StatedKind.Paint, ["paint", "colour", "color"]),
        (StatedKind.Medium, ["medium", "binder"]),
        (StatedKind.Water, ["water", "thinner"]));
}
