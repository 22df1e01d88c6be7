using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>One answer to a target.</summary>
/// <param name="Recipe">What is on the palette and whole drops added to it, the larger parts first; shares of 1 where drops may be divided.</param>
/// <param name="Added">Of it, what is to be added; the same where the palette was empty, nothing where the base is best as it is.</param>
/// <param name="Appearance">Its dried colour in a hiding layer under the light asked for.</param>
/// <param name="DeltaE00">Its difference from the target, CIEDE2000; under several lights the worst or the weighted mean, as asked.</param>
/// <param name="Lights">The difference under each light asked for.</param>
/// <param name="ExpectedError">How far the real mixture may lie from <paramref name="Appearance"/>.</param>
/// <param name="Harm">What one drop too many does, at its worst; null for a paint alone and where drops are divided.</param>
/// <param name="WorstLight">Under which of the usual lamps it differs most from the target.</param>
public sealed record Match(
    Recipe Recipe, IReadOnlyList<Part> Added, Appearance Appearance, double DeltaE00, IReadOnlyList<LightDifference> Lights,
    ExpectedError ExpectedError, DropHarm? Harm, LightDifference WorstLight);

/// <summary>One drop too many.</summary>
/// <param name="Paint">Of this paint: the one whose drop does most harm.</param>
/// <param name="DeltaE00">The difference from the target that the recipe then has.</param>
/// <param name="Shift">How the colour moves.</param>
public sealed record DropHarm(Paint Paint, double DeltaE00, ColorShift Shift)
{
    /// <summary>For example "one drop of kelp too many: visibly greener".</summary>
    public string Words => $"one drop of {Paint.Name} too many: {Shift.Words}";
}

/// <summary>The difference from the target under one light.</summary>
/// <param name="Condition">Light and eye.</param>
/// <param name="DeltaE00">CIEDE2000.</param>
public sealed record LightDifference(ViewingCondition Condition, double DeltaE00);
