namespace MixEngine.Storage;

/// <summary>What an import of swatches did to a shelf, or would do.</summary>
/// <param name="Added">Swatches that were not there before.</param>
/// <param name="AlreadyThere">Swatches of which the same was known already, to the last digit.</param>
public sealed record SwatchChange(IReadOnlyList<StoredSwatch> Added, IReadOnlyList<StoredSwatch> AlreadyThere);
