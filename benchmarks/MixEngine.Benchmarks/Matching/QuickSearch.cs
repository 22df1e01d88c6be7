using System.Globalization;
using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Benchmarks.Matching;

/// <summary>The proven search beside the straightforward one, both on all cores, in one run of under a minute.</summary>
internal static class QuickSearch
{
    public static void Run()
    {
        // Let the compiler see both, on a small shelf.
        foreach (var tolerance in new[] { 0, MatchOptions.Unseen })
        {
            for (var i = 0; i < 3; i++)
            {
                Compare(60, 6, InventedShelf.Targets[0], tolerance);
            }
        }

        // The whole shelf: a muted target, and one that no mixture reaches.
        Console.WriteLine(Compare(300, 6, "#5a6b3c", MatchOptions.Unseen));
        Console.WriteLine(Compare(300, 6, "#ff2010", MatchOptions.Unseen));

        // Half of it, where trying all of them takes an eighth of the time, for the other targets, for one that is a paint, and for the
        // nearest recipe however slight its lead.
        foreach (var hex in InventedShelf.Targets.Skip(1))
        {
            Console.WriteLine(Compare(150, 6, hex, MatchOptions.Unseen));
        }

        Console.WriteLine(Compare(150, 6, null, MatchOptions.Unseen));
        Console.WriteLine(Compare(150, 6, "#5a6b3c", 0));

        // Twelve drops are ten times as many recipes: a third of the shelf with all of them tried, and the whole shelf beside a thirtieth of
        // the first paints, scaled.
        Console.WriteLine(Compare(100, 12, "#5a6b3c", MatchOptions.Unseen));
        Console.WriteLine(Compare(100, 12, "#ff2010", MatchOptions.Unseen));
        Console.WriteLine(Compare(300, 12, "#5a6b3c", MatchOptions.Unseen, every: 30));
        Console.WriteLine(Compare(300, 12, "#ff2010", MatchOptions.Unseen, every: 30));
    }

    /// <summary>One comparison as a line that scripts can read.</summary>
    /// <param name="paints">How many paints.</param>
    /// <param name="drops">Most drops.</param>
    /// <param name="hex">The target; null: the first paint itself.</param>
    /// <param name="tolerance">What an eye does not see.</param>
    /// <param name="every">The straightforward search tries only so small a part of the first paints; its time is scaled by the recipes.</param>
    public static string Compare(int paints, int drops, string? hex, double tolerance, int every = 1)
    {
        var shelf = InventedShelf.Of(paints, seed: 1);
        var target = hex is null
            ? MatchTarget.OfReflectance(Prediction.AppearanceOf(Recipe.Of(shelf[0]), View.Default).Reflectance)
            : MatchTarget.OfColor(HexColor.Parse(hex).ToXyz(), ViewingCondition.Default);
        var options = new MatchOptions { Drops = drops, Tolerance = tolerance };

        // Ours before and after the long one: where the machine does other things, the median of three lies in the same weather.
        List<(double Wall, double Processor)> times = [Stopwatches.Both(() => RecipeSearch.Find(target, shelf, options), out var found)];
        var search = new PlainSearch(shelf, target, drops, tolerance) { Target = target };
        var plain = Stopwatches.Both(() => search.Run(every), out var best);
        times.Add(Stopwatches.Both(() => RecipeSearch.Find(target, shelf, options), out _));
        times.Add(Stopwatches.Both(() => RecipeSearch.Find(target, shelf, options), out _));
        var ours = Stopwatches.Quantile(times.Select(time => time.Wall), 0.5);
        var oursProcessor = Stopwatches.Quantile(times.Select(time => time.Processor), 0.5);
        var identical = every > 1 ? "not-asked" : best.ToString() == found.Best.Recipe.ToString() ? "yes" : "no";
        var scaled = every > 1 ? $" sample_s={plain.Wall.ToString("0.000", CultureInfo.InvariantCulture)} sample={search.Tried}" : "";
        var scale = found.Recipes / search.Tried;
        return string.Create(CultureInfo.InvariantCulture,
            $"search paints={paints} drops={drops} plain_s={scale * plain.Wall:0.000} ours_s={ours:0.0000} ratio={scale * plain.Wall / ours:0.0} processor_ratio={scale * plain.Processor / oursProcessor:0.0} identical={identical} proven={(found.Proven ? "yes" : "no")} tolerance={tolerance} target={hex ?? "a-paint"} reached={(found.Reached ? "yes" : "no")} recipes={found.Recipes}{scaled} dE00={found.Best.DeltaE00:0.000} best=\"{found.Best.Recipe}\"");
    }
}
