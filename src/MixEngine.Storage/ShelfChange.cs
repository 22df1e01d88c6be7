namespace MixEngine.Storage;

/// <summary>What an import did to a shelf, or would do.</summary>
/// <param name="Shelf">The shelf's name as stored.</param>
/// <param name="Added">Bottles that were not there before.</param>
/// <param name="Changed">Bottles of which something else is known now.</param>
/// <param name="Unchanged">Bottles of which the same was known already.</param>
public sealed record ShelfChange(
    string Shelf,
    IReadOnlyList<StoredPaint> Added,
    IReadOnlyList<StoredPaint> Changed,
    IReadOnlyList<StoredPaint> Unchanged);
