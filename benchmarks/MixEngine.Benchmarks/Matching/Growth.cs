using System.Globalization;
using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Benchmarks.Matching;

/// <summary>How the time of a search grows with the shelf; the recipes grow with the third power.</summary>
internal static class Growth
{
    private static readonly int[] Sizes = [50, 100, 200, 400, 700, 1000];

    public static void Run()
    {
        foreach (var tolerance in new[] { MatchOptions.Unseen, 0 })
        {
            Fit(tolerance);
        }
    }

    private static void Fit(double tolerance)
    {
        // Warm up, then all targets on each shelf, shortest of three; processor time, since other work on the machine bends a curve of wall times.
        TimeOf(60, tolerance);
        var times = Array.ConvertAll(Sizes, paints => Enumerable.Range(0, 3).Min(_ => TimeOf(paints, tolerance)));
        for (var i = 0; i < Sizes.Length; i++)
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"growth paints={Sizes[i]} drops=6 tolerance={tolerance} targets={InventedShelf.Targets.Count} mean_processor_s={times[i]:0.0000}"));
        }

        // log t = a + exponent·log n.
        var (_, all) = MathNet.Numerics.Fit.Line(Array.ConvertAll(Sizes, paints => Math.Log(paints)), Array.ConvertAll(times, Math.Log));
        var (_, large) = MathNet.Numerics.Fit.Line(Array.ConvertAll(Sizes[2..], paints => Math.Log(paints)), Array.ConvertAll(times[2..], Math.Log));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"growth tolerance={tolerance} exponent={all:0.00} exponent_from_200={large:0.00} enumeration=3"));
    }

    private static double TimeOf(int paints, double tolerance)
    {
        var shelf = InventedShelf.Of(paints, seed: 1);
        return InventedShelf.Targets.Average(hex => Stopwatches.Both(
            () => RecipeSearch.Find(MatchTarget.OfColor(HexColor.Parse(hex).ToXyz(), ViewingCondition.Default), shelf, new() { Tolerance = tolerance }), out _).Processor);
    }
}
