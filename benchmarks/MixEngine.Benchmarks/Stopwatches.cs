using System.Diagnostics;

namespace MixEngine.Benchmarks;

/// <summary>Ways to time on a machine that does other things besides.</summary>
internal static class Stopwatches
{
    /// <summary>Wall time of one call, seconds.</summary>
    public static double Seconds<T>(Func<T> call, out T result)
    {
        var start = Stopwatch.GetTimestamp();
        result = call();
        return Stopwatch.GetElapsedTime(start).TotalSeconds;
    }

    /// <summary>Wall time of one call, and the processor time of all threads in it, seconds: the latter is nearly the same whatever else the machine does.</summary>
    public static (double Wall, double Processor) Both<T>(Func<T> call, out T result)
    {
        var before = Environment.CpuUsage.TotalTime;
        var wall = Seconds(call, out result);
        return (wall, (Environment.CpuUsage.TotalTime - before).TotalSeconds);
    }

    /// <summary>
    /// The shortest of many short turns of two things, taken in turn: what the machine can do when it is left alone, the same for both.
    /// </summary>
    public static (double First, double Second) Shortest(int turns, Action first, Action second)
    {
        var (one, two) = (double.PositiveInfinity, double.PositiveInfinity);
        for (var turn = 0; turn < turns; turn++)
        {
            one = Math.Min(one, Seconds(first));
            two = Math.Min(two, Seconds(second));
        }

        return (one, two);
    }

    /// <summary>The value below which so large a share of the values lie.</summary>
    public static double Quantile(IEnumerable<double> values, double share)
    {
        var sorted = values.Order().ToArray();
        return sorted[Math.Min(sorted.Length - 1, (int)(share * sorted.Length))];
    }

    private static double Seconds(Action call)
    {
        var start = Stopwatch.GetTimestamp();
        call();
        return Stopwatch.GetElapsedTime(start).TotalSeconds;
    }
}
