namespace MixEngine.Core;

/// <summary>A glaze that brings one layer, or every step of a ramp, towards a colour.</summary>
/// <param name="Undiluted">What is let down.</param>
/// <param name="Coats">The let-down recipe, and how many coats of it.</param>
/// <param name="MediumParts">Parts of medium to one part of the undiluted recipe.</param>
/// <param name="WaterParts">Parts of water to one part of it.</param>
/// <param name="Layers">What becomes of each layer, in the order given.</param>
/// <param name="DeltaE00">Difference from the target; over several layers the mean of their differences in hue and chroma, their lightness left alone.</param>
/// <param name="Remarks">What is to be said of it, in plain words.</param>
public sealed record GlazeMatch(
    Recipe Undiluted, Coats Coats, double MediumParts, double WaterParts, IReadOnlyList<GlazedLayer> Layers, double DeltaE00, IReadOnlyList<string> Remarks);

/// <summary>One layer under the glaze.</summary>
/// <param name="Before">As it was.</param>
/// <param name="After">After the last coat.</param>
/// <param name="ExpectedError">How far the real one may lie from it.</param>
/// <param name="DeltaE00">Difference from the target: in hue and chroma alone, where there are several layers.</param>
/// <param name="StepDeltaE00">Difference from the layer before it in the list, after glazing; null at the first.</param>
public sealed record GlazedLayer(Appearance Before, Appearance After, ExpectedError ExpectedError, double DeltaE00, double? StepDeltaE00);

/// <summary>The answer to a glaze asked backwards.</summary>
/// <param name="Matches">The best first, each of another paint.</param>
/// <param name="Reached">Whether the best is within the tolerance.</param>
/// <param name="Reason">Where it is not: what stands in the way.</param>
public sealed record GlazeSearchResult(IReadOnlyList<GlazeMatch> Matches, bool Reached, string? Reason);
