namespace MixEngine.Core;

/// <summary>A swatch worth making.</summary>
/// <param name="Parts">What to stir together.</param>
/// <param name="BoundNow">The 95 % error that mixtures of the paint have on average, CIEDE2000.</param>
/// <param name="BoundAfter">What it would be once this swatch is measured.</param>
/// <param name="Words">The same for a person: "1 part kelp + 4 parts gull white".</param>
public sealed record Advice(IReadOnlyList<SwatchPart> Parts, double BoundNow, double BoundAfter, string Words);
