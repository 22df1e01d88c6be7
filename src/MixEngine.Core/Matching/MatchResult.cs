namespace MixEngine.Core;

/// <summary>The answer to a target: recipes, how good they are, and how sure it is that nothing is better.</summary>
/// <param name="Matches">The best first, each different in kind from those before it; never empty.</param>
/// <param name="Reached">Whether the best is within the tolerance of the target.</param>
/// <param name="Shortfall">Where it is not: in which direction the nearest falls short.</param>
/// <param name="Undivided">The best that the paints of one of <paramref name="Matches"/> reach when drops may be divided.</param>
/// <param name="Proven">Whether no recipe within the options is better in the painter's order; false when the search was stopped early.</param>
/// <param name="SmallestDeltaE00">
/// The smallest difference of any recipe within the options (d* of the painter's order), where it had to be found out: not where simple
/// recipes are within the tolerance of the target, nor where the search was stopped early.
/// </param>
/// <param name="PossibleDeltaE00">No recipe within the options is nearer than this.</param>
/// <param name="Recipes">How many recipes the options admit: all of them were looked at or ruled out when the answer is proven.</param>
public sealed record MatchResult(
    IReadOnlyList<Match> Matches, bool Reached, Shortfall? Shortfall, Match Undivided, bool Proven,
    double? SmallestDeltaE00, double PossibleDeltaE00, double Recipes)
{
    /// <summary>The best.</summary>
    public Match Best => Matches[0];
}
