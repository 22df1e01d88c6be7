using System.Globalization;

namespace MixEngine.Accuracy;

/// <summary>Errors made and errors stated of one protocol.</summary>
internal sealed record Score(string Protocol, IReadOnlyList<HeldOut> HeldOut)
{
    public double Median => Quantile(HeldOut.Select(one => one.Error), 0.5);

    public double P90 => Quantile(HeldOut.Select(one => one.Error), 0.9);

    public double Worst => HeldOut.Max(one => one.Error);

    /// <summary>Percent of the truths that lay within the stated 95 %.</summary>
    public double Inside => 100.0 * HeldOut.Count(one => one.Error <= one.Bound) / HeldOut.Count;

    public double MedianBound => Quantile(HeldOut.Select(one => one.Bound), 0.5);

    public override string ToString() => HeldOut.Count == 0 ? $"{Protocol} n=0 skipped" : string.Create(CultureInfo.InvariantCulture,
        $"{Protocol} n={HeldOut.Count} median={Median:0.00} p90={P90:0.00} worst={Worst:0.0} inside95={Inside:0.0} bound={MedianBound:0.0}");

    // Linear between the order statistics.
    private static double Quantile(IEnumerable<double> values, double share)
    {
        var sorted = values.Order().ToArray();
        var at = share * (sorted.Length - 1);
        var below = (int)at;
        return below + 1 < sorted.Length ? sorted[below] + (at - below) * (sorted[below + 1] - sorted[below]) : sorted[below];
    }
}
