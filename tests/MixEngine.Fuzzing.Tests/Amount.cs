using System.Globalization;

namespace MixEngine.Fuzzing.Tests;

/// <summary>How many inputs are tried: a few thousand with every test run, as many as MIXENGINE_FUZZ_INPUTS says (1000000, say) when somebody lets it run.</summary>
internal static class Amount
{
    private static readonly double? Wanted =
        double.TryParse(Environment.GetEnvironmentVariable("MIXENGINE_FUZZ_INPUTS"), NumberStyles.Float, CultureInfo.InvariantCulture, out var inputs) ? inputs : null;

    /// <summary>A surface's part of all inputs.</summary>
    /// <param name="usual">With every test run.</param>
    /// <param name="share">Of the inputs that were asked for; the shares of all surfaces add up to 1.</param>
    public static int Of(int usual, double share) => Wanted is { } wanted ? (int)(wanted * share) : usual;

    /// <summary>Says what was tried, where a long run was asked for.</summary>
    public static void Report(string surface, int inputs, IEnumerable<KeyValuePair<string, int>> outcomes)
    {
        if (Wanted is not null)
        {
            var line = string.Create(CultureInfo.InvariantCulture, $"fuzz surface={surface} inputs={inputs} {string.Join(' ', outcomes.OrderByDescending(o => o.Value).Select(o => $"{o.Key}={o.Value}"))}");
            File.AppendAllText(Path.Combine(Path.GetTempPath(), "mixengine-fuzz.txt"), line + "\n");
        }
    }
}
