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
        int Place(int step) => Enumerable.Range(0, ramp.Count).First(place => number(place) == step);
        bool Helps(IReadOnlyList<Recipe> changed) => FaultsOf(changed, view, options) < faults.Count;
        foreach (var fault in faults)
        {
            // What lies too close or backwards may be left out, but for the ends.
            var step = fault.Step ?? fault.To;
            var left = Place(step);
            if (fault.Kind != RampFaultKind.Band && left > 0 && left < ramp.Count - 1 && Helps([.. ramp.Where((_, place) => place != left)]))
            {
                yield return $"Leave out step {step}.";
            }

            // Where something is missing a step may be added.
            var below = Place(fault.From);
            if (fault.Kind == RampFaultKind.Band && InBetween.Of(ramp[below], ramp[below + 1], view, options, cancellation) is { } between
                && Helps([.. ramp.Take(below + 1), between.Prediction.Recipe, .. ramp.Skip(below + 1)]))
            {
                yield return $"Add {between.Prediction.Recipe} between steps {fault.From} and {fault.To}.";
            }
        }

        // Or the whole way is stepped anew, through the paints that stand alone in it.
        if (Anew(ramp, view, options, cancellation) is { } anew && Helps(anew))
        {
            yield return $"Mix the steps anew: {string.Join("; ", anew)}.";
        }
    }

    private static IReadOnlyList<Recipe>? Anew(IReadOnlyList<Recipe> ramp, View view, RampOptions options, CancellationToken cancellation)
    {
        var through = ramp.Where((recipe, place) => place == 0 || place == ramp.Count - 1 || recipe.Parts.Count == 1).ToList();
        for (var i = through.Count - 1; i > 0; i--)
        {
            if (RampLeg.AreSame(through[i], through[i - 1]))
            {
                through.RemoveAt(i);
            }
        }

        return through.Count < 2
            ? null
            : [.. EvenRamp.Through(through, view, new RampOptions { Steps = ramp.Count, Drops = options.Drops, TopStep = options.TopStep, EndsArePainted = true }, cancellation).Steps.Select(step => step.Prediction.Recipe)];
    }
}

/// <summary>A step mixed otherwise.</summary>
/// <param name="Step">Which, counted from 1 as the ramp was given.</param>
/// <param name="From">As it was.</param>
/// <param name="To">As it should be.</param>
/// <param name="Drops">Drops added and taken away.</param>
public sealed record RampChange(int Step, Recipe From, Recipe To, int Drops);
