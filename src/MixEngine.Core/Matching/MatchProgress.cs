namespace MixEngine.Core;

/// <summary>How far a search is.</summary>
/// <param name="Doing">What is being done, for example "looking for the nearest".</param>
/// <param name="Done">Share of that which is done, 0 to 1.</param>
/// <param name="SoFar">The answer if the search ended now: not proven. To be called from any thread; it takes about a millisecond.</param>
public sealed record MatchProgress(string Doing, double Done, Func<MatchResult> SoFar);
