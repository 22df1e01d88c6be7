namespace MixEngine.Core;

/// <summary>Tells a chosen candidate in full.</summary>
internal sealed class MatchWriter(SearchScope scope, MatchTarget target, MatchOptions options)
{
    private readonly Merits _merits = new(scope, target, options);

    /// <summary>A recipe in whole drops.</summary>
    public Match Write(Candidate candidate)
    {
        var added = Enumerable.Range(0, candidate.Paints).Select(i => (candidate[i].Place, (double)candidate[i].Drops));
        return Write(added, _merits.Harm(candidate));
    }

    /// <summary>The best that the paints of one of the candidates reach when drops may be divided; between equals, those of the earlier one.</summary>
    public Match WriteUndivided(IReadOnlyList<Candidate> candidates)
    {
        var optima = candidates.Where(candidate => candidate.Paints > 0).Select(UndividedOf).ToArray();
        var best = optima.Length > 0 ? optima.MinBy(optimum => optimum.Difference).Parts : [];
        return Write(best.Where(part => part.Drops > 0), harm: null);
    }

    private ((int Place, double Drops)[] Parts, double Difference) UndividedOf(Candidate candidate)
    {
        int[] places = [.. Enumerable.Range(0, candidate.Paints).Select(i => candidate[i].Place)];
        var (drops, difference) = new UndividedOptimum(scope, places, options.Drops).Find(candidate, target);
        return ([.. places.Zip(drops)], difference);
    }

    private Match Write(IEnumerable<(int Place, double Drops)> parts, DropHarm? harm)
    {
        (int Place, double Drops)[] added = [.. parts];
        var recipe = scope.Shelf.RecipeOf(added);
        var prediction = Prediction.Of(recipe, options.View);
        var seen = prediction.Appearance.Reflectance.Values;
        var lights = new List<LightDifference>();
        foreach (var light in scope.Objective.Lights)
        {
            lights.Add(new(light.Condition, Math.Round(light.DifferenceOf(seen), 9)));
        }

        return new Match(
            recipe,
            [.. added.OrderByDescending(part => part.Drops).ThenBy(part => part.Place).Select(part => new Part(scope.Shelf.Paints[part.Place], part.Drops))],
            prediction.Appearance, scope.Objective.DifferenceOf(seen), lights, prediction.ExpectedError, harm, _merits.WorstLight(seen));
    }
}
