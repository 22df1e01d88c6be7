using System.Diagnostics;
using System.Globalization;
using MixEngine.Colorimetry;
using MixEngine.Core;
using MixEngine.LayeringSpeed;

// Time of one answer in the engine alone, on one thread, after warming up. The bar: 50 ms for 3 paints, 8 steps, 12 drops.
const int Warm = 30;
var runs = args is [var text, ..] && int.TryParse(text, CultureInfo.InvariantCulture, out var asked) ? asked : 200;
var view = View.Default;
var options = new RampOptions { Steps = 8, Drops = 12 };

Console.WriteLine(FormattableString.Invariant($"{runs} random questions each; milliseconds of processor time for one answer"));
Console.WriteLine($"{"question",-44}{"median",9}{"95 %",9}{"worst",9}");

// Three paints, dark, middle and light, and a shelf of sixty.
var paints = new InventedPaints(5);
var ways = Enumerable.Range(0, runs + Warm).Select(_ => (Recipe[])[Recipe.Of(paints.Next(5, 30)), Recipe.Of(paints.Next(35, 60)), Recipe.Of(paints.Next(65, 95))]).ToArray();
var ramps = ways.Select(way => EvenRamp.Through(way, view, options).Steps.Select(step => step.Prediction.Recipe).ToArray()).ToArray();
var shelf = new InventedPaints(7).Shelf(60);

foreach (var difference in Enum.GetValues<StepDifference>())
{
    Time($"ramp, even in {difference}", i => EvenRamp.Through(ways[i], view, options with { Difference = difference }));
}

Time("ramp, middle kept, steps shrinking", i => EvenRamp.Through(ways[i], view, options with { Kept = [1], TopStep = 0.6 }));
Time("ramp, as few steps as keep below 6", i => EvenRamp.Through(ways[i], view, options with { FewestSteps = true, LargestStep = 6 }));
Time("ramp, 80 drops, 12 steps", i => EvenRamp.Through(ways[i], view, options with { Drops = 80, Steps = 12 }));
Time("audit, as made", i => RampAudit.Of(ramps[i], view, options));
Time("audit, one step doubled", i => RampAudit.Of([.. ramps[i].Take(3), ramps[i][2], .. ramps[i].Skip(4)], view, options));
Time("one step more, from a shelf of 60", i => RampExtension.Of(ramps[i], RampEnd.Light, shelf, view, options));
Time("one step between", i => InBetween.Of(ramps[i][0], ramps[i][^1], view, options));
Time("ramp around a colour, from a shelf of 60", i => ColorRamp.Around(
    MatchTarget.OfLab(Prediction.LabOf(ways[i][1], view), view.Condition), shelf, view, new ColorRampOptions { Ramp = options with { Steps = 5 }, Paints = 1 }));
Time("glaze backwards, one paint, one layer", i => GlazeSearch.Find([PaintedSurface.OfHidingLayer(ways[i][2])], Prediction.LabOf(ways[i][1], view), [ways[i][0]], view));
Time("glaze backwards, one paint, a ramp of 8", i => GlazeSearch.Find([.. ramps[i].Select(PaintedSurface.OfHidingLayer)], Prediction.LabOf(ways[i][1], view), [ways[i][0]], view));
Time("glaze backwards, a shelf of 60, one layer", i => GlazeSearch.Find([PaintedSurface.OfHidingLayer(ways[i][2])], Prediction.LabOf(ways[i][1], view), shelf.Select(Recipe.Of), view));
Time("coats over black", i => CoatsToHide.Over(Primer.Black.Surface, ways[i][1], view));
Time("undercoat, from a shelf of 60", i => Undercoat.Best(Primer.Black, ways[i][2], shelf, view));
Time("varnish on a ramp of 8", i => RampLook.InFinish(ramps[i], view, Finish.Matt));
Time("lamp over a ramp of 8", i => RampLook.UnderLamp(ramps[i], view, Illuminant.A));
Time("other eyes on a ramp of 8", i => RampLook.ToEye(ramps[i], view, new ColorVision(ColorVisionKind.Deutan)));
return;

// Processor time of this process, so that a busy machine does not blur it; the runtime's own threads are counted with it.
void Time(string question, Action<int> ask)
{
    using var process = Process.GetCurrentProcess();
    for (var i = 0; i < Warm; i++)
    {
        ask(runs + i);
    }

    var times = new double[runs];
    for (var i = 0; i < runs; i++)
    {
        process.Refresh();
        var before = process.TotalProcessorTime;
        ask(i);
        process.Refresh();
        times[i] = (process.TotalProcessorTime - before).TotalMilliseconds;
    }

    Array.Sort(times);
    Console.WriteLine(FormattableString.Invariant($"{question,-44}{times[runs / 2],9:0.0}{times[(int)(0.95 * (runs - 1))],9:0.0}{times[^1],9:0.0}"));
}
