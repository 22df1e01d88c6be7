namespace MixEngine.Interchange;

/// <summary>One bottle of a painter's own.</summary>
/// <param name="Line">The line (worksheet row) it was read from; zero when it comes from no file.</param>
/// <param name="Name">Unique on its shelf but for case; 1 to 200 characters, one line.</param>
public sealed record ShelfRow(int Line, string Name)
{
    /// <summary>The paint alone, dried, hiding. Never null for a paint; may be null for a medium or water.</summary>
    public ColorReading? Color { get; init; }

    /// <summary>Null: not stated.</summary>
    public StatedOpacity? Opacity { get; init; }

    /// <summary>The owner's own name for the series. Empty: not stated.</summary>
    public string Range { get; init; } = "";

    /// <summary>What the bottle holds.</summary>
    public StatedKind Kind { get; init; } = StatedKind.Paint;

    /// <summary>Null: not stated.</summary>
    public StatedFinish? Finish { get; init; }

    /// <summary>Drops to the millilitre, 1 to 200 (common practice 15 to 50, no source). Null: not stated.</summary>
    public double? DropsPerMl { get; init; }

    /// <summary>What is left in the bottle, ml, 0 to 100,000. Null: not stated.</summary>
    public double? MlLeft { get; init; }

    /// <summary>Colour Index generic names such as "PW6"; empty: not stated.</summary>
    public IReadOnlyList<string> Pigments { get; init; } = [];

    /// <summary>Free text, at most 4,000 characters; may have several lines.</summary>
    public string Notes { get; init; } = "";

    /// <summary>Equal in all that is stated, wherever it was read.</summary>
    public bool Equals(ShelfRow? other) =>
        other is not null && Name == other.Name && Equals(Color, other.Color) && Opacity == other.Opacity && Range == other.Range && Kind == other.Kind
        && Finish == other.Finish && DropsPerMl == other.DropsPerMl && MlLeft == other.MlLeft && Pigments.SequenceEqual(other.Pigments) && Notes == other.Notes;

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Name, Color, Kind);
}
