namespace MixEngine.Core;

/// <summary>
/// Finds the recipes of a shelf that look most like a target: every recipe of one to three paints in whole drops up to a total is looked at,
/// and the best in the painter's order (<see cref="MatchOrder"/>) is answered.
/// </summary>
public static class RecipeSearch
{
    /// <summary>Searches the paints. Medium and water are left out: in a hiding layer they have no colour.</summary>
    /// <param name="target">What to look like.</param>
    /// <param name="paints">The shelf, in any order; at least one paint with pigment.</param>
    /// <param name="options">What may be used; null: three paints, six drops, daylight.</param>
    /// <param name="stop">Ends the search early: the answer is then the best so far, and says that it is not proven.</param>
    /// <exception cref="ArgumentException">There is no paint to mix from, or two have the same id; or an option is out of range.</exception>
    public static MatchResult Find(MatchTarget target, IEnumerable<Paint> paints, MatchOptions? options = null, CancellationToken stop = default)
    {
        options ??= new MatchOptions();
        options.Check();
        var shelf = new SearchShelf(paints.Where(paint => paint.Kind == PaintKind.Paint), options.View);
        if (shelf.Paints.Length == 0)
        {
            throw new ArgumentException("There is no paint to mix from; a match needs at least one paint with pigment.", nameof(paints));
        }

        // Look at every recipe; keep those near enough to the best to be an answer.
        var search = new ExhaustiveSearch(shelf, target, options);
        var complete = search.Run(stop);

        // Answer with the first of each kind in the painter's order.
        var answers = new Answers(shelf, target, options);
        var chosen = answers.Choose(search.Found, search.Best);
        var best = chosen[0];
        var condition = options.View.Condition;
        var reached = best.DeltaE00 <= options.Tolerance;
        return new MatchResult(
            chosen, reached, reached ? null : Shortfall.Of(target.Under(condition), best.Appearance.Lab),
            answers.Undivided(chosen), complete, search.Best, search.Tried);
    }
}
