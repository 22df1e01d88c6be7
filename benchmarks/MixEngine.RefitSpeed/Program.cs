using System.Diagnostics;
using System.Globalization;
using MathNet.Numerics.LinearAlgebra;
using MixEngine.Core;
using MixEngine.RefitSpeed;

// How long a shelf takes to be learnt anew, against the plain way: the same model, its equations as one dense matrix.
// dotnet run -c Release --project benchmarks/MixEngine.RefitSpeed [paints of the largest shelf, 300]
var most = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : 300;
const int swatchesAPaint = 10;
const int largestDense = 40;
const double stated = 1e-2;

var cpu = File.Exists("/proc/cpuinfo") ? File.ReadLines("/proc/cpuinfo").FirstOrDefault(line => line.StartsWith("model name", StringComparison.Ordinal))?.Split(':')[1].Trim() : null;
Console.WriteLine($"{cpu ?? "processor unknown"}, {Environment.ProcessorCount} cores");
Console.WriteLine($"{"paints",7} {"swatches",9} {"unknowns",9} {"steps",6} {"fit, s",8} {"draws, s",9} {"whole refit, s",15} {"CPU, s",8} {"dense fit, s",13} {"dense / ours",13} {"apart, ln",10}");

// The first run warms up the compiler and is not counted.
(double Factoring, double Others, int Unknowns, int Swatches) dense = (0, 0, 1, 1);
Compare(5, print: false);
foreach (var paints in new[] { 10, 20, largestDense, 100, most }.Where(paints => paints <= most).Distinct())
{
    Compare(paints, print: true);
}

void Compare(int paints, bool print)
{
    var shelf = new InventedShelf(paints, paints * swatchesAPaint);

    // Everything a change of the evidence asks for: fit, draws, and how well each swatch agrees.
    var cpuBefore = Process.GetCurrentProcess().TotalProcessorTime;
    var watch = Stopwatch.StartNew();
    Characterization.Of(shelf.Paints, shelf.Swatches, Beliefs.Default);
    var whole = watch.Elapsed.TotalSeconds;
    var cpuSeconds = (Process.GetCurrentProcess().TotalProcessorTime - cpuBefore).TotalSeconds;

    // The fit alone, and the draws.
    var (ours, laidOut) = Lay(shelf);
    watch.Restart();
    ours.Run(CancellationToken.None);
    var fit = watch.Elapsed.TotalSeconds;
    watch.Restart();
    Ensemble.Of(ours, laidOut, Beliefs.Default.Draws, CancellationToken.None);
    var draws = watch.Elapsed.TotalSeconds;

    // The plain way; beyond what it can bear, its factoring by the cube of the unknowns and the rest by the swatches, from the largest shelf measured.
    var size = ours.Current.Values.Length;
    var apart = double.NaN;
    double plainly;
    if (paints <= largestDense)
    {
        var (plain, laidOutToo) = Lay(shelf);
        var fitter = new DenseFit(plain, laidOutToo.Samples);
        watch.Restart();
        fitter.Run();
        plainly = watch.Elapsed.TotalSeconds;
        dense = (fitter.FactoringSeconds, plainly - fitter.FactoringSeconds, size, shelf.Swatches.Length);
        apart = (Vector<double>.Build.Dense(plain.Current.Values) - Vector<double>.Build.Dense(ours.Current.Values)).InfinityNorm();
    }
    else
    {
        plainly = dense.Factoring * Math.Pow((double)size / dense.Unknowns, 3) + dense.Others * shelf.Swatches.Length / dense.Swatches;
    }

    if (print)
    {
        var extrapolated = paints > largestDense ? "~" : "";
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{paints,7} {shelf.Swatches.Length,9} {size,9} {ours.Steps,6} {fit,8:0.00} {draws,9:0.00} {whole,15:0.00} {cpuSeconds,8:0.0} {extrapolated + plainly.ToString("0.0", CultureInfo.InvariantCulture),13} {extrapolated + (plainly / fit).ToString("0", CultureInfo.InvariantCulture),13} {(double.IsNaN(apart) ? "-" : apart.ToString("0.0000", CultureInfo.InvariantCulture)),10}"));
    }

    // Both ways must have found the same paints, or the times say nothing.
    if (apart > stated)
    {
        throw new InvalidOperationException($"The two ways differ by {apart} in ln K/S or ln S.");
    }
}

static (JointFit Fit, SwatchShelf Shelf) Lay(InventedShelf invented)
{
    var shelf = new SwatchShelf(invented.Paints, invented.Swatches, Beliefs.Default);
    return (new JointFit(shelf.PaintBeliefs, shelf.Samples, shelf.Surfaces, Beliefs.Default), shelf);
}
