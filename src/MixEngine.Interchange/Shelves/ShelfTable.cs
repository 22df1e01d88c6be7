namespace MixEngine.Interchange;

/// <summary>A painter's own paints, in the order of the file.</summary>
public sealed record ShelfTable(IReadOnlyList<ShelfRow> Rows)
{
    /// <summary>Equal when the rows are.</summary>
    public bool Equals(ShelfTable? other) => other is not null && Rows.SequenceEqual(other.Rows);

    /// <inheritdoc/>
    public override int GetHashCode() => Rows.Count;
}
