using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>The colours of all whole-drop recipes of a shelf, in the order of their lightness, to be asked which of them lie near a colour.</summary>
internal sealed class RecipeCloud
{
    private readonly Candidate[] _recipes;
    private readonly Lab[] _labs;
    private readonly double[] _lightness;

    private RecipeCloud(Candidate[] recipes, Lab[] labs)
    {
        // Equal lightness keeps the order of the recipes, so that answers do not depend on the sort.
        var order = Enumerable.Range(0, recipes.Length).OrderBy(i => labs[i].L).ToArray();
        _recipes = Array.ConvertAll(order, i => recipes[i]);
        _labs = Array.ConvertAll(order, i => labs[i]);
        _lightness = Array.ConvertAll(_labs, lab => lab.L);
    }

    public int Count => _recipes.Length;

    /// <summary>Computes all recipes of one and two paints of the shelf, and those of three paints at some of its places.</summary>
    public static RecipeCloud Of(SearchShelf shelf, int paints, int drops, IReadOnlyList<int> threeFrom, CancellationToken cancellation)
    {
        var recipes = new List<Candidate>();
        var all = Enumerable.Range(0, shelf.Paints.Length).ToArray();
        recipes.AddRange(all.Select(a => Candidate.Of(a, 1)));
        if (paints >= 2)
        {
            var shares = Pairs(drops).ToArray();
            recipes.AddRange(from a in all from b in all where b > a from share in shares select Candidate.Of(a, share.I, b, share.J));
        }

        if (paints >= 3)
        {
            var shares = Triples(drops).ToArray();
            recipes.AddRange(
                from x in Enumerable.Range(0, threeFrom.Count)
                from y in Enumerable.Range(x + 1, threeFrom.Count - x - 1)
                from z in Enumerable.Range(y + 1, threeFrom.Count - y - 1)
                from share in shares
                select new Candidate(threeFrom[x], share.I, threeFrom[y], share.J, threeFrom[z], share.K));
        }

        return Of(shelf, [.. recipes], cancellation);
    }

    /// <summary>Computes the colours of given recipes.</summary>
    public static RecipeCloud Of(SearchShelf shelf, Candidate[] recipes, CancellationToken cancellation)
    {
        var labs = new Lab[recipes.Length];
        Parallel.For(0, recipes.Length, new ParallelOptions { CancellationToken = cancellation }, i => labs[i] = shelf.ColorOf(recipes[i]));
        return new RecipeCloud(recipes, labs);
    }

    /// <summary>Ways to share drops among two paints, up to a total, that are no multiple of each other.</summary>
    public static IEnumerable<(int I, int J)> Pairs(int drops) =>
        from i in Enumerable.Range(1, Math.Max(0, drops - 1))
        from j in Enumerable.Range(1, drops - i)
        where Candidate.IsReduced(i, j, 0)
        select (i, j);

    /// <summary>The same among three paints.</summary>
    public static IEnumerable<(int I, int J, int K)> Triples(int drops) =>
        from i in Enumerable.Range(1, Math.Max(0, drops - 2))
        from j in Enumerable.Range(1, Math.Max(0, drops - i - 1))
        from k in Enumerable.Range(1, drops - i - j)
        where Candidate.IsReduced(i, j, k)
        select (i, j, k);

    /// <summary>All recipes within a CIEDE2000 difference of a colour, with that difference.</summary>
    public IEnumerable<(Candidate Recipe, Lab Lab, double DeltaE00)> Near(Lab aim, double radius)
    {
        // CIEDE2000 ≥ |ΔL| / S_L, and S_L < 1.75 [CIE142].
        var reach = 1.75 * radius;
        var first = Array.BinarySearch(_lightness, aim.L - reach);
        first = first < 0 ? ~first : first;
        while (first > 0 && _lightness[first - 1] >= aim.L - reach)
        {
            first--;
        }

        // In the chroma plane the rotation term takes at most √3/2 of either axis, so a distance D needs D ≤ 2.74·r·S, S ≤ 1 + 0.045·(C' + D/2), C' ≤ 1.5·C.
        var slope = 1 - 2.74 * 0.0225 * radius;
        var plane = slope > 0 ? 2.74 * radius * (1 + 0.0675 * aim.Chroma) / slope : double.PositiveInfinity;
        var planeSquared = plane * plane;
        for (var i = first; i < _labs.Length && _lightness[i] <= aim.L + reach; i++)
        {
            var (da, db) = (_labs[i].A - aim.A, _labs[i].B - aim.B);
            if (da * da + db * db > planeSquared)
            {
                continue;
            }

            var difference = DeltaE2000.Between(aim, _labs[i]);
            if (difference <= radius)
            {
                yield return (_recipes[i], _labs[i], difference);
            }
        }
    }

    /// <summary>The nearest recipe that has no more chroma than allowed; the nearest of all where none has.</summary>
    public (Candidate Recipe, double DeltaE00) Nearest(Lab aim, double chromaAtMost)
    {
        // Widen the search until something is found: beyond that radius nothing is nearer.
        for (var radius = 2.0; ; radius *= 2)
        {
            var nearest = (Recipe: default(Candidate), DeltaE00: double.PositiveInfinity);
            foreach (var (recipe, lab, difference) in Near(aim, radius))
            {
                if (difference < nearest.DeltaE00 && (lab.Chroma <= chromaAtMost || radius > MostRadius))
                {
                    nearest = (recipe, difference);
                }
            }

            if (double.IsFinite(nearest.DeltaE00))
            {
                return nearest;
            }
        }
    }

    // No two colours of surfaces are further apart.
    private const double MostRadius = 150;
}
