namespace MixEngine.Interchange;

/// <summary>Measured colours and spectra, in the order of the file.</summary>
public sealed record SwatchTable(IReadOnlyList<SwatchRow> Rows)
{
    /// <summary>Equal when the rows are.</summary>
    public bool Equals(SwatchTable? other) => other is not null && Rows.SequenceEqual(other.Rows);

    /// <inheritdoc/>
    public override int GetHashCode() => Rows.Count;
}
