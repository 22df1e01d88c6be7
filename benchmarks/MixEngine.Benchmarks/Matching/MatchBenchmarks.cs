using BenchmarkDotNet.Attributes;
using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Benchmarks.Matching;

/// <summary>The proven search and the straightforward one as BenchmarkDotNet measures them, with what they allocate.</summary>
[MemoryDiagnoser]
public class MatchBenchmarks
{
    private Paint[] _shelf = [];
    private MatchTarget _target = null!;

    /// <summary>How many paints stand on the shelf.</summary>
    [Params(100, 300)]
    public int Paints { get; set; }

    /// <summary>The colour to be matched; no mixture reaches the second.</summary>
    [Params("#5a6b3c", "#ff2010")]
    public string Target { get; set; } = "";

    /// <summary>Makes the shelf.</summary>
    [GlobalSetup]
    public void Setup()
    {
        _shelf = InventedShelf.Of(Paints, seed: 1);
        _target = MatchTarget.OfColor(HexColor.Parse(Target).ToXyz(), ViewingCondition.Default);
    }

    /// <summary>Tries every recipe of up to three paints and six drops.</summary>
    [Benchmark(Baseline = true)]
    public string EveryRecipe() => new PlainSearch(_shelf, _target, 6, MatchOptions.Unseen) { Target = _target }.Run(1).ToString()!;

    /// <summary>Proves the best of the same recipes, and finds others of other kinds.</summary>
    [Benchmark]
    public string Proven() => RecipeSearch.Find(_target, _shelf, new MatchOptions { Drops = 6 }).Best.Recipe.ToString();
}
