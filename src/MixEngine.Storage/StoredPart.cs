namespace MixEngine.Storage;

/// <summary>So many parts of the paint of this name: a swatch outlives the bottles that it was made of, so it holds their names only.</summary>
/// <param name="Paint">The name as its owner knows it; "medium" and "water" are those of every shelf.</param>
/// <param name="Parts">As measured out.</param>
public readonly record struct StoredPart(string Paint, double Parts);
