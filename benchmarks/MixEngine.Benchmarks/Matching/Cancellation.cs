using System.Diagnostics;
using System.Globalization;
using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Benchmarks.Matching;

/// <summary>How soon a search that takes seconds ends when it is told to, at any moment of it.</summary>
internal static class Cancellation
{
    private const int Times = 30;

    public static void Run()
    {
        // As the service does, so that a timer is heard while searches hold the threads.
        ThreadPool.SetMinThreads(Environment.ProcessorCount + 4, Environment.ProcessorCount + 4);

        // Many drops, the nearest however slight its lead, out of reach: what takes longest.
        var shelf = InventedShelf.Of(600, seed: 1);
        var target = MatchTarget.OfColor(HexColor.Parse("#ff2010").ToXyz(), ViewingCondition.Default);
        var options = new MatchOptions { Drops = 24, Tolerance = 0 };
        foreach (var answered in new[] { false, true })
        {
            var late = new List<double>();
            var finished = 0;
            for (var i = -3; i < Times; i++)
            {
                using var stop = new CancellationTokenSource();
                var after = TimeSpan.FromMilliseconds(20 + 20 * Math.Abs(i));
                var start = Stopwatch.GetTimestamp();
                stop.CancelAfter(after);
                try
                {
                    RecipeSearch.Find(target, shelf, options, stop.Token, gone: answered ? default : stop.Token);
                }
                catch (OperationCanceledException)
                {
                }

                // From the moment for which it was asked: a timer that is heard late counts.
                var over = Stopwatch.GetElapsedTime(start) - after;
                if (!stop.IsCancellationRequested)
                {
                    finished++;
                }
                else if (i >= 0)
                {
                    late.Add(over.TotalMilliseconds);
                }
            }

            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"cancel paints=600 drops=24 answer={(answered ? "best-so-far" : "nobody-waits")} times={late.Count} finished_before={finished} median_ms={Stopwatches.Quantile(late, 0.5):0.0} p95_ms={Stopwatches.Quantile(late, 0.95):0.0} worst_ms={late.Max():0.0}"));
        }
    }
}
