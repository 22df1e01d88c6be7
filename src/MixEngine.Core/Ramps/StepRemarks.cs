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

    /// <summary>Remarks on one step.</summary>
    /// <param name="sizes">Sizes of all steps, CIEDE2000.</param>
    /// <param name="shares">The same, divided by how large each was meant to be.</param>
    /// <param name="index">Which.</param>
    public static IEnumerable<string> Of(IReadOnlyList<double> sizes, IReadOnlyList<double> shares, int index)
    {
        var size = sizes[index];
        if (size < HardlySeen)
        {
            yield return FormattableString.Invariant($"Hardly to be told from the step before ({size:0.0} dE00).");
        }

        if (sizes.Count > 1)
        {
            var others = (shares.Sum() - shares[index]) / (shares.Count - 1);
            if (size >= SmallestBand && shares[index] > Band * others)
            {
                yield return FormattableString.Invariant($"Bands: {size:0.0} dE00 from the step before, {shares[index] / others:0.0} times the others.");
            }
        }
    }
}
