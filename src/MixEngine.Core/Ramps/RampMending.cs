using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>What mends a ramp.</summary>
/// <param name="Changes">The steps to mix otherwise; empty where no small change mends it.</param>
/// <param name="Drops">Drops added and taken away in all of them.</param>
/// <param name="Steps">The recipes of the mended ramp, dark to light; the old ones where nothing mends it.</param>
/// <param name="StepsDeltaE00">The sizes of its steps, CIEDE2000.</param>
/// <param name="FaultsLeft">Faults that are left after the changes.</param>
/// <param name="Alternatives">Other ways, in plain words: a step to leave out, a step to add.</param>
public sealed record RampMending(
    IReadOnlyList<RampChange> Changes, int Drops, IReadOnlyList<Recipe> Steps, IReadOnlyList<double> StepsDeltaE00, int FaultsLeft, IReadOnlyList<string> Alternatives)
{
    internal static RampMending Of(
        IReadOnlyList<Recipe> ramp, IReadOnlyList<RampFault> faults, Func<int, int> number, View view, RampOptions options, CancellationToken cancellation)
    {
        // The fewest drops that leave no fault; or else what lies wrong is mixed anew, halfway between its neighbours.
        var best = new DropMending(ramp, view, options, cancellation).Smallest() ?? MixedAnew(ramp, faults, number, view, options, cancellation);
        RampChange[] changes =
        [
            .. Enumerable.Range(0, ramp.Count)
                .Where(i => !ReferenceEquals(best[i], ramp[i]))
                .Select(i => new RampChange(number(i), ramp[i], best[i], DropMending.Distance(ramp[i], best[i]))),
        ];
        var labs = best.Select(recipe => Prediction.LabOf(recipe, view)).ToArray();
        return new RampMending(
            changes, changes.Sum(change => change.Drops), best,
            [.. labs.Skip(1).Zip(labs, (to, from) => DeltaE2000.Between(from, to))],
            FaultsOf(best, view, options),
            [.. OtherWays(ramp, faults, number, view, options, cancellation)]);
    }

    private static IReadOnlyList<Recipe> MixedAnew(
        IReadOnlyList<Recipe> ramp, IReadOnlyList<RampFault> faults, Func<int, int> number, View view, RampOptions options, CancellationToken cancellation)
    {
        var mended = ramp.ToArray();
        foreach (var place in Enumerable.Range(1, Math.Max(0, ramp.Count - 2)).Where(place => faults.Any(fault => fault.Step == number(place))))
        {
            if (InBetween.Of(mended[place - 1], mended[place + 1], view, options, cancellation) is { } between)
            {
                mended[place] = between.Prediction.Recipe;
            }
        }

        return FaultsOf(mended, view, options) < faults.Count ? mended : ramp;
    }

    private static int FaultsOf(IReadOnlyList<Recipe> ramp, View view, RampOptions options) =>
        new RampFaults([.. ramp.Select(recipe => Prediction.LabOf(recipe, view))], options.Weights(ramp.Count - 1)).Find(place => place).Count;

    private static IEnumerable<string> OtherWays(
        IReadOnlyList<Recipe> ramp, IReadOnlyList<RampFault> faults, Func<int, int> number, View view, RampOptions options, CancellationToken cancellation)
    {
        foreach (var fault in faults)
        {
            // What lies too close or backwards may be left out, but for the ends.
            var step = fault.Step ?? fault.To;
            var left = Enumerable.Range(0, ramp.Count).First(place => number(place) == step);
            if (left > 0 && left < ramp.Count - 1 && FaultsOf([.. ramp.Where((_, place) => place != left)], view, options) < faults.Count)
            {
                yield return $"Leave out step {step}.";
            }

            // Where something is missing a step may be added.
            if (fault.Kind == RampFaultKind.Band)
            {
                var below = Enumerable.Range(0, ramp.Count).First(place => number(place) == fault.From);
                if (InBetween.Of(ramp[below], ramp[below + 1], view, options, cancellation) is { } between
                    && FaultsOf([.. ramp.Take(below + 1), between.Prediction.Recipe, .. ramp.Skip(below + 1)], view, options) < faults.Count)
                {
                    yield return $"Add {between.Prediction.Recipe} between steps {fault.From} and {fault.To}.";
                }
            }
        }
    }
}

/// <summary>A step mixed otherwise.</summary>
/// <param name="Step">Which, counted from 1 as the ramp was given.</param>
/// <param name="From">As it was.</param>
/// <param name="To">As it should be.</param>
/// <param name="Drops">Drops added and taken away.</param>
public sealed record RampChange(int Step, Recipe From, Recipe To, int Drops);
