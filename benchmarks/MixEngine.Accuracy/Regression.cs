using System.Globalization;

namespace MixEngine.Accuracy;

/// <summary>Whether an engine has become worse than the committed results (RESULTS.md) by more than the stated margin.</summary>
internal static class Regression
{
    // A tenth over the committed median and 90th percentile, six points under the committed share inside: what a changed library or another
    // processor may move is a hundredth of that. A folder with other mixtures is told by their number, and may differ by a quarter.
    private const double Margin = 1.1;
    private const double MarginElsewhere = 1.25;
    private const double InsideMargin = 6;

    private static readonly (string Protocol, int Count, double Median, double P90, double Inside)[] Committed =
    [
        ("one-letdown", 25, 1.67, 3.42, 96.0),
        ("leave-one-out", 34, 1.60, 3.38, 94.1),
        ("color-only", 15, 7.18, 11.14, 100.0),
    ];

    private const int CommittedFirst = 20;

    /// <summary>Prints each regression; 1 where there is one, else 0.</summary>
    public static int Report(IEnumerable<Score> scores, int first, int planted)
    {
        var faults = new List<string>();
        foreach (var (protocol, count, median, p90, inside) in Committed)
        {
            var score = scores.Single(score => score.Protocol == protocol);
            if (score.HeldOut.Count == 0)
            {
                continue;
            }

            var margin = score.HeldOut.Count == count ? Margin : MarginElsewhere;
            if (score.Median > margin * median || score.P90 > margin * p90 || score.Inside < inside - InsideMargin)
            {
                faults.Add(string.Create(CultureInfo.InvariantCulture, $"regression: {score}; committed median={median} p90={p90} inside95={inside}, margin {margin:0.00} and {InsideMargin:0} points"));
            }
        }

        if (first * 20 < CommittedFirst * planted - 2 * 20)
        {
            faults.Add(string.Create(CultureInfo.InvariantCulture, $"regression: {first} of {planted} wrong labels named first; committed {CommittedFirst} of 20, margin 2"));
        }

        faults.ForEach(Console.WriteLine);
        return faults.Count > 0 ? 1 : 0;
    }
}
