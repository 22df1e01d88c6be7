using System.Diagnostics;
using System.Globalization;
using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Benchmarks.Matching;

/// <summary>The proven search beside the straightforward one, both on all cores, in one run of under a minute.</summary>
internal static class QuickSearch
{
    public static void Run()
    {
        // Let the compiler see both once, on a small shelf.
        foreach (var tolerance in new[] { 0, MatchOptions.Unseen })
        {
            for (var i = 0; i < 3; i++)
            {
                Compare(60, 6, InventedShelf.Targets[0], tolerance);
            }
        }

        foreach (var hex in InventedShelf.Targets.Take(5))
        {
            Console.WriteLine(Compare(300, 6, hex, MatchOptions.Unseen));
        }

        Console.WriteLine(Compare(300, 6, InventedShelf.Targets[0], 0));
        Console.WriteLine(Compare(100, 12, InventedShelf.Targets[0], MatchOptions.Unseen));
        Console.WriteLine(Compare(100, 12, InventedShelf.Targets[0], 0));
    }

    /// <summary>One comparison as a line that scripts can read.</summary>
    public static string Compare(int paints, int drops, string hex, double tolerance)
    {
        var shelf = InventedShelf.Of(paints, seed: 1);
        var target = MatchTarget.OfColor(HexColor.Parse(hex).ToXyz(), ViewingCondition.Default);
        var options = new MatchOptions { Drops = drops, Tolerance = tolerance };
        var ours = Seconds(() => RecipeSearch.Find(target, shelf, options), out var found);
        var search = new PlainSearch(shelf, target, drops, tolerance) { Target = target };
        var plain = Seconds(search.Run, out var best);
        var identical = best.ToString() == found.Best.Recipe.ToString() ? "yes" : "no";
        return string.Create(CultureInfo.InvariantCulture,
            $"search paints={paints} drops={drops} tolerance={tolerance} target={hex} recipes={search.Tried} plain_s={plain:0.000} ours_s={ours:0.0000} ratio={plain / ours:0.0} identical={identical} proven={(found.Proven ? "yes" : "no")} best=\"{found.Best.Recipe}\" dE00={found.Best.DeltaE00:0.000}");
    }

    /// <summary>Wall time of a call.</summary>
    public static double Seconds<T>(Func<T> call, out T result)
    {
        var watch = Stopwatch.StartNew();
        result = call();
        return watch.Elapsed.TotalSeconds;
    }
}
