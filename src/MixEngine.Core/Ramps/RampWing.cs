namespace MixEngine.Core;

/// <summary>One side of a ramp around a mid-tone.</summary>
/// <param name="Added">What is added to the mid-tone: a paint, or two in whole parts.</param>
/// <param name="End">The last recipe of this side, in whole drops.</param>
/// <param name="EndLightness">Its L*.</param>
/// <param name="ChromaKept">The least share, over its steps, of the mid-tone's chroma as far as the shelf allows it at that lightness and near that hue, 0 or more.</param>
/// <param name="HueOff">Mean difference from the hue wanted, in the units of CIE 1994.</param>
public sealed record RampWing(Recipe Added, Recipe End, double EndLightness, double ChromaKept, double HueOff);
