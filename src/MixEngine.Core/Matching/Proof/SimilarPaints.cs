using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>Puts paints that act alike side by side. Only speed depends on it, never an answer.</summary>
internal static class SimilarPaints
{
    /// <summary>The places of the shelf in blocks of at most so many, most of them full.</summary>
    public static IReadOnlyList<int[]> InBlocks(SearchShelf shelf, int size)
    {
        var features = Enumerable.Range(0, shelf.Paints.Length).Select(place => Features(shelf, place)).ToArray();
        var blocks = new List<int[]>();
        Split([.. Enumerable.Range(0, features.Length)], features, size, blocks);
        return blocks;
    }

    // What a paint does alone, roughly as bright as an eye sees it, and how strong it is beside others.
    private static double[] Features(SearchShelf shelf, int place)
    {
        var weights = TristimulusWeights.For(ViewingCondition.Default);
        var features = new double[2 * SpectralGrid.Bands];
        for (var band = 0; band < SpectralGrid.Bands; band++)
        {
            var importance = Math.Sqrt(Math.Max(0, weights.X[band] + weights.Y[band] + weights.Z[band]));
            var (k, s) = (shelf.K(place)[band], shelf.S(place)[band]);
            features[band] = importance * Math.Cbrt(KubelkaMunk.OpaqueReflectance(k, s));
            features[SpectralGrid.Bands + band] = 0.12 * importance * Math.Log(1e-12 + s + 0.2 * k);
        }

        return features;
    }

    // Cut across the direction in which they differ most, so that all blocks but the last are full.
    private static void Split(int[] places, double[][] features, int size, List<int[]> blocks)
    {
        if (places.Length <= size)
        {
            blocks.Add(places);
            return;
        }

        var ordered = Along(places, features);
        var left = (places.Length + size - 1) / size / 2 * size;
        Split(ordered[..left], features, size, blocks);
        Split(ordered[left..], features, size, blocks);
    }

    // The first principal direction, by power iteration.
    private static int[] Along(int[] places, double[][] features)
    {
        var n = features[0].Length;
        var mean = Enumerable.Range(0, n).Select(i => places.Average(place => features[place][i])).ToArray();
        var direction = Enumerable.Range(0, n).Select(i => 1 + 0.1 * Math.Sin(i)).ToArray();
        double Position(int place)
        {
            var sum = 0.0;
            for (var i = 0; i < n; i++)
            {
                sum += (features[place][i] - mean[i]) * direction[i];
            }

            return sum;
        }

        for (var iteration = 0; iteration < 12; iteration++)
        {
            var next = new double[n];
            foreach (var place in places)
            {
                var position = Position(place);
                for (var i = 0; i < n; i++)
                {
                    next[i] += position * (features[place][i] - mean[i]);
                }
            }

            var length = Math.Sqrt(next.Sum(value => value * value));
            if (!(length > 0))
            {
                break;
            }

            direction = Array.ConvertAll(next, value => value / length);
        }

        return [.. places.Select(place => (place, Position: Position(place))).OrderBy(one => one.Position).ThenBy(one => one.place).Select(one => one.place)];
    }
}
