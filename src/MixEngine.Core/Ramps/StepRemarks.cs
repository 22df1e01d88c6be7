using System.Globalization;

namespace MixEngine.Core;

/// <summary>What is to be said of one step among others.</summary>
internal static class StepRemarks
{
    /// <summary>A step below which neighbours can hardly be told apart, CIEDE2000: what a trained eye just sees side by side (common practice, no source).</summary>
    public const double HardlySeen = 1;

    /// <summary>A step larger than this many times the mean of the others stands out as a band (common practice, no source).</summary>
    public const double Band = 1.5;

    /// <summary>Nothing below this bands, CIEDE2000.</summary>
    public const double SmallestBand = 3;

    /// <summary>Remarks on one of the sizes.</summary>
    public static IEnumerable<string> Of(IReadOnlyList<double> sizes, int index)
    {
        var size = sizes[index];
        if (size < HardlySeen)
        {
            yield return Text($"Hardly to be told from the step before ({size:0.0} dE00).");
        }

        if (sizes.Count > 1)
        {
            var others = (sizes.Sum() - size) / (sizes.Count - 1);
            if (size >= SmallestBand && size > Band * others)
            {
                yield return Text($"Bands: {size:0.0} dE00 from the step before, where the others are {others:0.0} apart on average.");
            }
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
