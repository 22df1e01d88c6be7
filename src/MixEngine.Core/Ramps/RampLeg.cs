namespace MixEngine.Core;

/// <summary>All mixtures of two neighbouring recipes of a path: t = 0 is the first, t = 1 the second, and between them t parts of the second to 1 - t of the first.</summary>
internal sealed class RampLeg
{
    private readonly Paint[] _paints;
    private readonly double[] _from;
    private readonly double[] _to;

    public RampLeg(Recipe from, Recipe to)
    {
        (From, To) = (from, to);
        _paints = [.. from.Parts.Concat(to.Parts).Select(part => part.Paint).DistinctBy(paint => paint.Id)];
        _from = Shares(from);
        _to = Shares(to);
        if (AreSame(from, to))
        {
            throw new ArgumentException($"'{from}' and '{to}' are the same mixture; leave one of them out.");
        }
    }

    public Recipe From { get; }

    public Recipe To { get; }

    /// <summary>Whether two recipes are one mixture: 2:4 and 1:2.</summary>
    public static bool AreSame(Recipe one, Recipe other) =>
        one.Parts.Count == other.Parts.Count && one.Parts.All(part => other.Parts.Any(same =>
            same.Paint.Id == part.Paint.Id && Math.Abs(same.Parts / other.Total - part.Parts / one.Total) < 1e-12));

    /// <summary>The mixture at t, in parts that add up to 1.</summary>
    public Recipe At(double t) => t <= 0 ? From : t >= 1 ? To : new Recipe(Parts(t));

    /// <summary>The mixtures strictly between the ends that can be counted in at most so many whole drops, each in its smallest whole drops, by rising t.</summary>
    /// <remarks>
    /// Along the leg the drops of every paint change in proportion. So one paint, the one that changes most, is counted up from end to end for
    /// every total, and a mixture is kept where the other paints come out whole too. All of it is exact in whole numbers.
    /// </remarks>
    public IReadOnlyList<(double T, Recipe Recipe)> WholeDrops(int most)
    {
        if (WholeParts.Of(From) is not { } fromParts || WholeParts.Of(To) is not { } toParts)
        {
            return [];
        }

        var a = Spread(From, fromParts);
        var b = Spread(To, toParts);
        var (sumA, sumB) = (a.Sum(), b.Sum());

        // From t = 0 to 1 the share of paint p changes by d[p] / (sumA·sumB).
        var d = a.Zip(b, (x, y) => y * sumA - x * sumB).ToArray();
        var lead = Array.IndexOf(d, d.MaxBy(Math.Abs));

        var found = new List<(double T, Recipe Recipe)>();
        for (var total = 1; total <= most; total++)
        {
            for (var drops = 0L; drops <= total; drops++)
            {
                // total·share(t) = drops, that is t = (drops·sumA - total·a)·sumB / (total·d).
                var gone = drops * sumA - total * a[lead];
                var t = (double)gone * sumB / ((double)total * d[lead]);
                if (!(t > 0 && t < 1))
                {
                    continue;
                }

                var counts = new long[a.Length];
                var whole = true;
                for (var p = 0; p < counts.Length && whole; p++)
                {
                    var numerator = (Int128)total * a[p] * d[lead] + (Int128)gone * d[p];
                    var denominator = (Int128)sumA * d[lead];
                    whole = numerator % denominator == 0;
                    counts[p] = (long)(numerator / denominator);
                }

                // What is a multiple of a smaller mixture was found before.
                if (whole && counts.Aggregate(0L, WholeParts.GreatestCommonDivisor) == 1)
                {
                    found.Add((t, new Recipe(counts.Select((count, p) => new Part(_paints[p], count)).Where(part => part.Parts > 0))));
                }
            }
        }

        return [.. found.OrderBy(mixture => mixture.T)];
    }

    private IEnumerable<Part> Parts(double t)
    {
        for (var p = 0; p < _paints.Length; p++)
        {
            var share = (1 - t) * _from[p] + t * _to[p];
            if (share > 0)
            {
                yield return new Part(_paints[p], share);
            }
        }
    }

    private double[] Shares(Recipe recipe) =>
        [.. _paints.Select(paint => recipe.Parts.Where(part => part.Paint.Id == paint.Id).Sum(part => part.Parts) / recipe.Total)];

    private long[] Spread(Recipe recipe, long[] whole)
    {
        var spread = new long[_paints.Length];
        for (var i = 0; i < whole.Length; i++)
        {
            spread[Array.FindIndex(_paints, paint => paint.Id == recipe.Parts[i].Paint.Id)] = whole[i];
        }

        return spread;
    }
}
