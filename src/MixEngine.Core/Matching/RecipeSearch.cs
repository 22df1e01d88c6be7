namespace MixEngine.Core;

/// <summary>
/// Finds the recipes of a shelf that look most like a target: the best of all recipes of one to three paints in whole drops up to a total,
/// in the painter's order (<see cref="MatchOrder"/>). What is not looked at is ruled out by a bound, so the answer is as good as if all had been.
/// </summary>
public static class RecipeSearch
{
    /// <summary>Searches the paints. Water is left out: it leaves nothing; so is medium unless it is allowed: in a hiding layer it has no colour.</summary>
    /// <param name="target">What to look like.</param>
    /// <param name="paints">The shelf, in any order; at least one paint with pigment.</param>
    /// <param name="options">What may be used; null: three paints, six drops, daylight.</param>
    /// <param name="stop">Ends the search early: the answer is then the best so far, and says that it is not proven.</param>
    /// <param name="progress">Told now and then, from any thread, how far the search is and what it has found.</param>
    /// <param name="gone">Nobody waits for an answer any more: where the search was stopped, none is made.</param>
    /// <exception cref="OperationCanceledException">The search was stopped, and nobody waits for an answer.</exception>
    /// <exception cref="ArgumentException">There is no paint to mix from, two have the same id, or a paint that must be in is not there; or an option is out of range.</exception>
    public static MatchResult Find(
        MatchTarget target, IEnumerable<Paint> paints, MatchOptions? options = null, CancellationToken stop = default, IProgress<MatchProgress>? progress = null,
        CancellationToken gone = default)
    {
        options ??= new MatchOptions();
        options.Check();

        // Lay out the shelf, without what may not be in.
        var shelf = new SearchShelf(paints.Where(paint => MayBeIn(paint, options)), options.View, options.Base);
        if (shelf.Paints.Length == 0)
        {
            throw new ArgumentException("There is no paint to mix from; a match needs at least one paint with pigment.", nameof(paints));
        }

        var scope = new SearchScope(shelf, new MatchObjective(target, options), options, MustBeIn(shelf, options));

        var telling = new MatchTelling(scope, target, options, progress);

        // The smallest difference of all says which recipes an eye cannot tell from the best; of those the painter's order chooses.
        var smallest = new SmallestDifference(scope, options, stop, gone, (so, done) => telling.Tell("looking for the nearest", done, so));
        var answers = new Answers(scope, target, options);
        var certain = answers.Choose(smallest, stop, done => telling.Tell("choosing among the near ones", done, smallest));
        gone.ThrowIfCancellationRequested();
        return telling.Result(answers.Chosen, smallest, certain);
    }

    private static bool MayBeIn(Paint paint, MatchOptions options) =>
        (paint.Kind == PaintKind.Paint || (paint.Kind == PaintKind.Medium && options.MediumAllowed))
        && SearchShelf.DryVolumeOfDrop(paint) > 0
        && !options.MustNot.Contains(paint.Id);

    private static int[] MustBeIn(SearchShelf shelf, MatchOptions options) =>
    [
        .. options.Must.Distinct().Where(id => options.Base?.Parts.Any(part => part.Paint.Id == id) is not true).Select(id =>
        {
            var place = Array.FindIndex(shelf.Paints, paint => paint.Id == id);
            return place >= 0 ? place : throw new ArgumentException($"The paint '{id}' must be in the recipe, but is not among the paints that may be.", nameof(options));
        }),
    ];
}
