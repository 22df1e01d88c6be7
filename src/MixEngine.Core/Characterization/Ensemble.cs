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
        var draws = new Estimate[size];
        Parallel.For(0, size, new ParallelOptions { CancellationToken = cancel }, i =>
        {
            var word = "draw " + i.ToString(System.Globalization.CultureInfo.InvariantCulture);
            ulong Seed(string id) => unchecked((ulong)ModeKey.Of(id, word));
            draws[i] = fit.Draw([.. shelf.Ids.Select(Seed)], [.. shelf.Samples.Select(sample => Seed(sample.Swatches[0].Id))], cancel);
        });
        return new Ensemble(draws);
    }

    /// <summary>The modes of one paint: their outer products add up to its covariance.</summary>
    public IReadOnlyList<UncertaintyMode> ModesOf(int place)
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

        return modes;
    }
}
