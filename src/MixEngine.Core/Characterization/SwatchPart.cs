namespace MixEngine.Core;

/// <summary>So many parts of the paint with this id: a swatch outlives every refit of its paints, so it holds their names only.</summary>
public readonly record struct SwatchPart(string PaintId, double Parts);
