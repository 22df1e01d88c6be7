namespace MixEngine.Core;

/// <summary>One way to meet a demand.</summary>
/// <param name="Places">The places of its paints on the planned shelf, ascending.</param>
/// <param name="Recipe">The mix; for a glaze with its medium.</param>
/// <param name="DeltaE00">Its difference from the demand's aim, CIEDE2000; 0 for a mix that the author gave.</param>
/// <param name="Coats">For a glaze: how often it is laid; 1 otherwise.</param>
public sealed record PaletteOption(int[] Places, Recipe Recipe, double DeltaE00, int Coats = 1);
