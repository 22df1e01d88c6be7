namespace MixEngine.Core;

/// <summary>Tells what a search has found, at its end and on the way there.</summary>
internal sealed class MatchTelling(SearchScope scope, MatchTarget target, MatchOptions options, IProgress<MatchProgress>? progress)
{
    private readonly MatchWriter _writer = new(scope, target, options);
    private readonly Lazy<double> _recipes = new(() => RecipeCount.Of(scope, options));

    /// <summary>Tells how far the search is, to whoever asked to be told.</summary>
    public void Tell(string doing, double done, SmallestDifference smallest)
    {
        if (progress is not null && smallest.NearestNow is not null)
        {
            progress.Report(new MatchProgress(doing, done, () => Result([smallest.NearestNow.Value], smallest, certain: false)));
        }
    }

    /// <summary>The answer.</summary>
    /// <param name="chosen">The recipes chosen, the best first.</param>
    /// <param name="smallest">What is known of the smallest difference.</param>
    /// <param name="certain">Whether the first of them is certain to be the best.</param>
    public MatchResult Result(IReadOnlyList<Candidate> chosen, SmallestDifference smallest, bool certain)
    {
        var matches = chosen.Select(_writer.Write).ToArray();
        var best = matches[0];
        var reached = best.DeltaE00 <= options.Tolerance;
        return new MatchResult(
            matches, reached, reached ? null : Shortfall.Of(target.Under(options.View.Condition), best.Appearance.Lab),
            _writer.WriteUndivided(chosen), certain, smallest.IsKnown ? smallest.Found : null, certain ? smallest.NotBelow : smallest.NotBelowNow, _recipes.Value);
    }
}
