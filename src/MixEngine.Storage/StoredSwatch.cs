namespace MixEngine.Storage;

/// <summary>A swatch that is kept with a shelf.</summary>
/// <param name="Id">Unique on its shelf, kept for as long as the swatch is there.</param>
/// <param name="Evidence">What was said of it.</param>
public sealed record StoredSwatch(string Id, SwatchEvidence Evidence);
