using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>The colours of all whole-drop recipes of a shelf, in the order of their lightness, to be asked which of them lie near a colour.</summary>
internal sealed class RecipeCloud
{
    private readonly Candidate[] _recipes;
    private readonly Lab[] _labs;
    private readonly double[] _lightness;

    // Takes the arrays over and sorts them in place.
    private RecipeCloud(Candidate[] recipes, Lab[] labs)
    {
        // Equal lightness keeps the order of the recipes, so that answers do not depend on the sort.
        var order = new int[recipes.Length];
        for (var i = 0; i < order.Length; i++)
        {
            order[i] = i;
        }

        Array.Sort(order, (i, j) => labs[i].L.CompareTo(labs[j].L) is var byLightness and not 0 ? byLightness : i.CompareTo(j));
        Rearrange(order, recipes, labs);
        (_recipes, _labs) = (recipes, labs);
        _lightness = Array.ConvertAll(_labs, lab => lab.L);
    }

    // Each cycle of the permutation by itself, so that no second pair of large arrays is held.
    private static void Rearrange(int[] order, Candidate[] recipes, Lab[] labs)
    {
        for (var start = 0; start < order.Length; start++)
        {
            var (recipe, lab, place) = (recipes[start], labs[start], start);
            while (order[place] != place)
            {
                var from = order[place];
                order[place] = place;
                if (from == start)
                {
                    (recipes[place], labs[place]) = (recipe, lab);
                    break;
                }

                (recipes[place], labs[place]) = (recipes[from], labs[from]);
                place = from;
            }
        }
    }

    public int Count => _recipes.Length;

    /// <summary>Computes all recipes of one and two paints of the shelf, and those of three paints at some of its places.</summary>
    public static RecipeCloud Of(SearchShelf shelf, int paints, int drops, IReadOnlyList<int> threeFrom, CancellationToken cancellation)
    {
        // Counted first, so that the largest array is made once.
        var all = shelf.Paints.Length;
        var pairs = paints >= 2 ? Pairs(drops).ToArray() : [];
        var triples = paints >= 3 ? Triples(drops).ToArray() : [];
        var three = (long)threeFrom.Count;
        var recipes = new Candidate[all + (long)all * (all - 1) / 2 * pairs.Length + three * (three - 1) * (three - 2) / 6 * triples.Length];
        var next = 0;
        for (var a = 0; a < all; a++)
        {
            recipes[next++] = Candidate.Of(a, 1);
        }

        for (var a = 0; a < all; a++)
        {
            for (var b = a + 1; b < all; b++)
            {
                foreach (var (i, j) in pairs)
                {
                    recipes[next++] = Candidate.Of(a, i, b, j);
                }
            }
        }

        for (var x = 0; x < threeFrom.Count; x++)
        {
            for (var y = x + 1; y < threeFrom.Count; y++)
            {
                for (var z = y + 1; z < threeFrom.Count; z++)
                {
                    foreach (var (i, j, k) in triples)
                    {
                        recipes[next++] = new Candidate(threeFrom[x], i, threeFrom[y], j, threeFrom[z], k);
                    }
                }
            }
        }

        return Of(shelf, recipes, cancellation);
    }

    /// <summary>Computes the colours of given recipes.</summary>
    public static RecipeCloud Of(SearchShelf shelf, Candidate[] recipes, CancellationToken cancellation)
    {
        var labs = new Lab[recipes.Length];
        Parallel.For(0, recipes.Length, new ParallelOptions { CancellationToken = cancellation, TaskScheduler = null }, i => labs[i] = shelf.ColorOf(recipes[i]));
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
