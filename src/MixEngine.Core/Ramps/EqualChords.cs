using MathNet.Numerics.LinearAlgebra;

namespace MixEngine.Core;

/// <summary>
/// Moves places on a climb until the differences of neighbours are equal, or in given proportions: Newton's method on d(uₖ, uₖ₊₁)/wₖ = step,
/// in the places between the ends and the step itself.
/// </summary>
/// <remarks>On a way without leaps equal steps exist for every number of them; whether they are found hangs on where one starts.</remarks>
internal static class EqualChords
{
    private const int MostRounds = 30;

    // Over which the slopes are read, in samples of the table.
    private const double Reach = 0.01;

    /// <summary>The places after the last round that made them more even.</summary>
    public static IReadOnlyList<Climb.Place> From(Climb climb, IReadOnlyList<Climb.Place> start, IReadOnlyList<double> weights)
    {
        var along = start.Select(Climb.Along).ToArray();
        var steps = weights.Count;
        double Size(int step, double from, double to) => climb.Measure.Between(climb.CoordinatesOf(climb.At(from)), climb.CoordinatesOf(climb.At(to))) / weights[step];
        double[] Sizes(double[] places) => [.. Enumerable.Range(0, steps).Select(k => Size(k, places[k], places[k + 1]))];

        var uneven = Unevenness.Of(Sizes(along));
        for (var round = 0; round < MostRounds && uneven > 1e-6; round++)
        {
            // One row a step: how its size changes with both of its ends, and with the step that all are to have.
            var sizes = Sizes(along);
            var mean = sizes.Average();
            var slopes = Matrix<double>.Build.Dense(steps, steps);
            for (var k = 0; k < steps; k++)
            {
                if (k > 0)
                {
                    slopes[k, k - 1] = (Size(k, along[k] + Reach, along[k + 1]) - sizes[k]) / Reach;
                }

                if (k < steps - 1)
                {
                    slopes[k, k] = (Size(k, along[k], along[k + 1] + Reach) - sizes[k]) / Reach;
                }

                slopes[k, steps - 1] = -1;
            }

            var move = slopes.Solve(Vector<double>.Build.DenseOfEnumerable(sizes.Select(size => mean - size)));
            if (!move.All(double.IsFinite))
            {
                break;
            }

            // As far as makes it more even, the order of the places kept.
            double[]? better = null;
            for (var share = 1.0; share > 1e-3 && better is null; share /= 2)
            {
                double[] moved = [.. along.Select((place, i) => i == 0 || i == steps ? place : place + share * move[i - 1])];
                if (moved.Skip(1).Zip(moved, (next, before) => next > before).All(rises => rises) && Unevenness.Of(Sizes(moved)) is var now && now < uneven)
                {
                    (better, uneven) = (moved, now);
                }
            }

            if (better is null)
            {
                break;
            }

            along = better;
        }

        return [.. along.Select(climb.At)];
    }
}
