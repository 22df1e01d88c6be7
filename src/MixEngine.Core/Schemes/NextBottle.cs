namespace MixEngine.Core;

/// <summary>A paint that could be bought, and what it would do for a scheme beside the bottles taken.</summary>
/// <param name="Paint">The paint.</param>
/// <param name="Improved">How many targets it brings visibly nearer.</param>
/// <param name="Reached">How many targets come within the tolerance by it.</param>
/// <param name="Gain">By how much the differences fall in all, CIEDE2000: what lies beyond the tolerance first.</param>
/// <param name="WorstDeltaE00">The largest difference that is left.</param>
/// <param name="Best">Where it helps most.</param>
public sealed record NextBottle(Paint Paint, int Improved, int Reached, double Gain, double WorstDeltaE00, string Best)
{
    /// <summary>Tries each paint beside the bottles taken; those that help nobody are left out.</summary>
    /// <param name="buyable">Paints that could be bought.</param>
    /// <param name="bottles">The bottles taken.</param>
    /// <param name="demands">The demands that have a target.</param>
    /// <param name="differences">Their differences with the bottles taken, CIEDE2000.</param>
    /// <param name="scheme">The limits of mixes and the view.</param>
    /// <param name="cancellation">Ends the work.</param>
    public static IReadOnlyList<NextBottle> Find(
        IReadOnlyList<Paint> buyable, IReadOnlyList<Paint> bottles, IReadOnlyList<Demand> demands, IReadOnlyList<double> differences, Scheme scheme, CancellationToken cancellation)
    {
        var own = bottles.Select(paint => paint.Id).ToHashSet();
        var found = new NextBottle?[buyable.Count];
        Parallel.For(0, buyable.Count, new ParallelOptions { CancellationToken = cancellation, TaskScheduler = null }, i =>
        {
            if (buyable[i].Kind == PaintKind.Paint && !own.Contains(buyable[i].Id))
            {
                found[i] = Of(buyable[i], bottles, demands, differences, scheme, cancellation);
            }
        });
        return [.. found.OfType<NextBottle>().Where(next => next.Improved > 0)
            .OrderByDescending(next => next.Reached).ThenByDescending(next => next.Gain).ThenBy(next => next.Paint.Id, StringComparer.Ordinal)];
    }

    private static NextBottle Of(Paint paint, IReadOnlyList<Paint> bottles, IReadOnlyList<Demand> demands, IReadOnlyList<double> differences, Scheme scheme, CancellationToken cancellation)
    {
        // Every mix with the new paint in it.
        var shelf = new SearchShelf([.. bottles, paint], scheme.View);
        var place = Array.FindIndex(shelf.Paints, other => other.Id == paint.Id);
        var cloud = RecipeCloud.Of(shelf, [.. WithPaint(place, shelf.Paints.Length, scheme.PaintsPerMix, scheme.Drops)], cancellation);

        var (improved, reached, gain, worst, best, most) = (0, 0, 0.0, 0.0, "", 0.0);
        for (var d = 0; d < demands.Count; d++)
        {
            var before = differences[d];
            var after = before <= MatchOptions.Unseen ? before : cloud.Near(demands[d].Aim, before)
                .Where(near => near.Recipe.Drops <= demands[d].Drops && near.Lab.Chroma <= demands[d].ChromaAtMost)
                .Select(near => near.DeltaE00).DefaultIfEmpty(before).Min();
            worst = Math.Max(worst, after);
            if (before - after <= MatchOptions.Unseen)
            {
                continue;
            }

            improved++;
            reached += before > scheme.Tolerance && after <= scheme.Tolerance ? 1 : 0;
            gain += before - after;
            if (before - after > most)
            {
                (most, best) = (before - after, demands[d].Key);
            }
        }

        return new NextBottle(paint, improved, reached, gain, worst, best);
    }

    private static IEnumerable<Candidate> WithPaint(int place, int paints, int perMix, int drops)
    {
        yield return Candidate.Of(place, 1);
        int[] others = [.. Enumerable.Range(0, paints).Where(other => other != place)];
        foreach (var (i, j) in perMix >= 2 ? RecipeCloud.Pairs(drops) : [])
        {
            foreach (var other in others)
            {
                yield return Candidate.Of(Math.Min(place, other), i, Math.Max(place, other), j);
            }
        }

        foreach (var (i, j, k) in perMix >= 3 ? RecipeCloud.Triples(drops) : [])
        {
            for (var x = 0; x < others.Length; x++)
            {
                for (var y = x + 1; y < others.Length; y++)
                {
                    int[] set = [place, others[x], others[y]];
                    Array.Sort(set);
                    yield return new Candidate(set[0], i, set[1], j, set[2], k);
                }
            }
        }
    }
}
