namespace MixEngine.Storage;

/// <summary>A shelf as it is at one revision.</summary>
/// <param name="Name">As first written; found in any case.</param>
/// <param name="Revision">Grows with every change; equal revisions of one shelf hold the same paints and swatches.</param>
/// <param name="Paints">In the order in which they came to the shelf.</param>
public sealed record StoredShelf(string Name, long Revision, IReadOnlyList<StoredPaint> Paints)
{
    /// <summary>What was measured of them, in the order in which it was entered.</summary>
    public IReadOnlyList<StoredSwatch> Swatches { get; init; } = [];
}

/// <summary>A shelf in a list.</summary>
public sealed record ShelfSummary(string Name, long Revision, int Paints);
