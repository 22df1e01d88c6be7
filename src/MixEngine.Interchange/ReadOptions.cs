using MixEngine.Colorimetry;

namespace MixEngine.Interchange;

/// <summary>What the reader of a table may be told beforehand. What the file itself declares wins.</summary>
public sealed record ReadOptions
{
    /// <summary>Nothing said beforehand.</summary>
    public static ReadOptions Default { get; } = new();

    /// <summary>Whether reflectances (and XYZ) that declare no scale are fractions of 1 or percent. Null: decided once for the whole table, refused where that cannot be.</summary>
    public ReflectanceScale? Scale { get; init; }

    /// <summary>Light and eye of Lab and XYZ that state none. Null: D65, 2 degrees in tables; D50, 2 degrees in CGATS and CxF files [ISO13655].</summary>
    public ViewingCondition? Condition { get; init; }
}
