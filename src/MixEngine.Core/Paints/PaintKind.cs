namespace MixEngine.Core;

/// <summary>What is in the bottle.</summary>
public enum PaintKind
{
    /// <summary>Pigment in binder.</summary>
    Paint,

    /// <summary>Binder without pigment: it spreads the paint, and stays in the film.</summary>
    Medium,

    /// <summary>Leaves while drying: it thins the film.</summary>
    Water,
}
