using System.Collections.Immutable;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>Draws from the posterior, as uncertainty modes that all fitted paints share.</summary>
internal sealed class Ensemble
{
    private readonly Estimate[] _draws;

    private Ensemble(Estimate[] draws) => _draws = draws;

    /// <summary>Draws around a fit.</summary>
    public static Ensemble Of(JointFit fit, SwatchShelf shelf, int size, CancellationToken cancel)
    {
        // A batch at a time, so that what the samples say is read once for all of its draws.
        const int batch = 12;
        var draws = Enumerable.Range(0, size).Chunk(batch).AsParallel().AsOrdered().WithCancellation(cancel).SelectMany(some => fit.Solve(Array.ConvertAll(some, i =>
        {
            var word = "draw " + i.ToString(System.Globalization.CultureInfo.InvariantCulture);
            ulong Seed(string id) => unchecked((ulong)ModeKey.Of(id, word));
            return fit.DrawnPull([.. shelf.Ids.Select(Seed)], [.. shelf.Samples.Select(sample => Seed(sample.Swatches[0].Id))]);
        }), cancel)).ToArray();
        return new Ensemble(draws);
    }

    /// <summary>The modes of one paint: their outer products add up to its covariance.</summary>
    public ImmutableArray<UncertaintyMode> ModesOf(int place)
    {
        var scale = 1 / Math.Sqrt(_draws.Length);
        var modes = new UncertaintyMode[_draws.Length];
        for (var i = 0; i < modes.Length; i++)
        {
            var (k, s) = (new double[SpectralGrid.Bands], new double[SpectralGrid.Bands]);
            for (var band = 0; band < k.Length; band++)
            {
                s[band] = scale * _draws[i].Scattering(place)[band];
                k[band] = s[band] + scale * _draws[i].Ratio(place)[band];
            }

            modes[i] = new UncertaintyMode(ModeKey.Of("", "swatches " + i.ToString(System.Globalization.CultureInfo.InvariantCulture)), k, s);
        }

        return [.. modes];
    }
}
