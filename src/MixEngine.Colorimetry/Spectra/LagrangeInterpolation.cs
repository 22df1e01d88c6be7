namespace MixEngine.Colorimetry;

/// <summary>
/// Local Lagrange interpolation as ASTM E2022 asks for spectra: a cubic through the two points on either side,
/// and at the first and last interval a parabola through the three outermost points [CIE167] [ASTM-E2022].
/// </summary>
internal static class LagrangeInterpolation
{
    /// <summary>The most points that carry weight at one place.</summary>
    public const int MaxPoints = 4;

    /// <summary>
    /// Finds the points that matter at <paramref name="x"/> and their weights, which sum to one.
    /// </summary>
    /// <param name="nodes">Strictly increasing positions, at least one.</param>
    /// <param name="x">A position between the first and the last node; beyond them the end node alone counts.</param>
    /// <param name="weights">Room for <see cref="MaxPoints"/> weights.</param>
    /// <returns>Index of the first node that counts, and how many do.</returns>
    public static (int First, int Count) Weights(ReadOnlySpan<double> nodes, double x, Span<double> weights)
    {
        var last = nodes.Length - 1;

        // Outside the nodes the nearest one is repeated; a node itself is hit exactly.
        if (x <= nodes[0])
        {
            weights[0] = 1;
            return (0, 1);
        }

        if (x >= nodes[last])
        {
            weights[0] = 1;
            return (last, 1);
        }

        // The interval [below, below + 1] holds x.
        var below = nodes.BinarySearch(x);
        below = below >= 0 ? below : ~below - 1;

        var first = Math.Max(below - 1, 0);
        var end = Math.Min(below + 2, last);
        var chosen = nodes[first..(end + 1)];
        for (var i = 0; i < chosen.Length; i++)
        {
            var weight = 1.0;
            for (var j = 0; j < chosen.Length; j++)
            {
                if (j != i)
                {
                    weight *= (x - chosen[j]) / (chosen[i] - chosen[j]);
                }
            }

            weights[i] = weight;
        }

        return (first, chosen.Length);
    }
}
