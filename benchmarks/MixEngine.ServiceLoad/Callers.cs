using System.Diagnostics;

namespace MixEngine.ServiceLoad;

/// <summary>So many callers, each of which asks again as soon as it is answered.</summary>
internal static class Callers
{
    /// <summary>Calls for some time.</summary>
    /// <returns>Calls per second, and the milliseconds that 50, 95 and 99 of 100 calls do not exceed.</returns>
    public static async Task<(double PerSecond, double P50, double P95, double P99)> RunAsync(int callers, TimeSpan duration, Func<int, Task> call)
    {
        var watch = Stopwatch.StartNew();
        var latencies = await Task.WhenAll(Enumerable.Range(0, callers).Select(async caller =>
        {
            // The first call of each is asked on a thread of its own, not on one that still starts the others.
            await Task.Yield();
            var own = new List<long>();
            while (watch.Elapsed < duration)
            {
                var begin = Stopwatch.GetTimestamp();
                await call(caller);
                own.Add(Stopwatch.GetTimestamp() - begin);
            }

            return own;
        }));
        var seconds = watch.Elapsed.TotalSeconds;
        long[] sorted = [.. latencies.SelectMany(own => own).Order()];
        double At(double share) => 1e3 * sorted[(int)(share * (sorted.Length - 1))] / Stopwatch.Frequency;
        return (sorted.Length / seconds, At(0.5), At(0.95), At(0.99));
    }
}
