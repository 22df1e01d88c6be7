using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>How well swatches agree with a fit.</summary>
internal static class SwatchFits
{
    // Few swatches fit one another by chance: no misfit below this counts as a yardstick.
    private const double LeastUsual = 0.3;
    private const double DoubtedFrom = 2;
    private const int MostDoubted = 6;

    /// <summary>One for each swatch, in their order.</summary>
    public static IReadOnlyList<SwatchFit> Of(JointFit fit, SwatchShelf shelf, Swatch[] swatches, CancellationToken cancel)
    {
        // Beliefs about readings are wide, so most swatches fit far better than they allow: what is usual here is the yardstick.
        var misfits = shelf.Samples.Select(sample => sample.Misfit(fit.Current)).ToArray();
        var usual = Math.Max(LeastUsual, misfits.Order().ElementAt(misfits.Length / 2));

        // A wrong label drags its paints along and makes right ones look bad, so the worst are tried one by one: the more disagreement goes
        // when a swatch is left out, with the others and with what is believed, the likelier it is the wrong one.
        var worst = Enumerable.Range(0, misfits.Length).Where(i => misfits[i] > DoubtedFrom * usual).OrderByDescending(i => misfits[i]).Take(MostDoubted).ToArray();
        foreach (var i in worst)
        {
            misfits[i] = Math.Sqrt(Math.Max(0, fit.Relief(shelf.Samples[i], cancel)) / shelf.Samples[i].Rows);
        }

        var found = new Dictionary<string, SwatchFit>();
        foreach (var (sample, misfit) in shelf.Samples.Zip(misfits))
        {
            // Doses and surfaces as stated: what a prediction would have said.
            var stated = sample.AsStated(fit.Current);
            for (var i = 0; i < sample.Readings.Count; i++)
            {
                var swatch = sample.Swatches[i];
                var condition = swatch.Color.Condition ?? ViewingCondition.D65Degree10;
                var weights = TristimulusWeights.For(condition);
                var fitted = Lab.FromXyz(weights.ToXyz(stated.AsSpan(i * SpectralGrid.Bands, SpectralGrid.Bands)), weights.White);
                var measured = swatch.Color.LabUnder(condition);
                found[swatch.Id] = new SwatchFit(swatch, measured, fitted, DeltaE2000.Between(measured, fitted), misfit / usual, shelf.RemarkOn(sample, i));
            }
        }

        return [.. swatches.Select(swatch => found.TryGetValue(swatch.Id, out var fit) ? fit : shelf.NotUsed(swatch, found))];
    }
}
