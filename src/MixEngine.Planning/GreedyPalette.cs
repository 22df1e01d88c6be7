using MixEngine.Core;

namespace MixEngine.Planning;

/// <summary>A palette that meets every demand, found by taking bottles away one by one: where the search starts from.</summary>
internal static class GreedyPalette
{
    /// <summary>Bottles that meet every demand within what is allowed.</summary>
    public static SortedSet<int> Of(PaletteProblem problem, Func<int, double> allowed)
    {
        // Begin with all bottles of any allowed option; give up first what serves fewest demands, and last what stands on the table.
        var options = Enumerable.Range(0, problem.Demands.Count)
            .Select(d => problem.Options[d].Where(option => option.DeltaE00 <= allowed(d) + 1e-12).ToArray()).ToArray();
        var taken = new SortedSet<int>(options.SelectMany(of => of).SelectMany(option => option.Places));
        var serves = taken.ToDictionary(p => p, p => options.Count(of => Array.Exists(of, option => option.Places.Contains(p))));
        foreach (var paint in taken.OrderBy(p => problem.OnTable[p]).ThenBy(p => serves[p]).ThenBy(p => p).ToArray())
        {
            taken.Remove(paint);
            if (!options.All(of => Array.Exists(of, option => Array.TrueForAll(option.Places, taken.Contains))))
            {
                taken.Add(paint);
            }
        }

        return taken;
    }
}
