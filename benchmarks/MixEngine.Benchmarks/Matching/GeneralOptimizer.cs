using System.Globalization;
using System.Text.Json;
using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Benchmarks.Matching;

/// <summary>
/// A general-purpose optimiser, SLSQP of SciPy (Debian's python3-scipy), asked for the best fractions of sampled triples of the shelf, its
/// time scaled to all triples, beside our whole proven search of the same shelf.
/// </summary>
internal static class GeneralOptimizer
{
    private const int Paints = 300;
    private const int Sample = 200;

    public static int Run()
    {
        var shelf = InventedShelf.Of(Paints, seed: 1);
        var condition = ViewingCondition.Default;
        var target = MatchTarget.OfColor(HexColor.Parse("#5a6b3c").ToXyz(), condition);
        var weights = TristimulusWeights.For(condition);
        var aim = target.Under(condition);
        var random = new Random(2);
        var triples = Enumerable.Range(0, Sample).Select(_ =>
        {
            var places = Enumerable.Range(0, Paints).ToArray();
            random.Shuffle(places);
            return places[..3].Select(place => new { k = shelf[place].Optics.K.ToArray(), s = shelf[place].Optics.S.ToArray() });
        });
        var file = Path.Combine(AppContext.BaseDirectory, "triples.json");
        File.WriteAllText(file, JsonSerializer.Serialize(new
        {
            x = weights.X.ToArray(),
            y = weights.Y.ToArray(),
            z = weights.Z.ToArray(),
            white = new[] { weights.White.X, weights.White.Y, weights.White.Z },
            aim = new[] { aim.L, aim.A, aim.B },
            triples,
        }));
        RecipeSearch.Find(target, InventedShelf.Of(60, seed: 1));
        var before = Stopwatches.Seconds(() => RecipeSearch.Find(target, shelf), out var found);
        if (Child.Run("/usr/bin/python3", $"slsqp.py \"{file}\"", Path.Combine(AppContext.BaseDirectory, "Peers")) is not { } answer)
        {
            Console.Error.WriteLine("It needs SciPy: apt-get install python3-scipy");
            return 1;
        }

        var after = Stopwatches.Seconds(() => RecipeSearch.Find(target, shelf), out _);
        using var told = JsonDocument.Parse(answer);
        var each = told.RootElement.GetProperty("seconds").GetDouble() / Sample;
        var ours = (before + after) / 2;
        const double all = Paints * (Paints - 1.0) * (Paints - 2) / 6;
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"optimizer scipy={told.RootElement.GetProperty("version").GetString()} triples={Sample} slsqp_ms_per_triple={each * 1e3:0.00} scaled_to={all:0} scaled_s={each * all:0} ours_s={ours:0.0000} ratio={each * all / ours:0} proven={(found.Proven ? "yes" : "no")}"));
        return 0;
    }
}
