using System.Globalization;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>Steps from dark to light through two or more recipes, as even to the eye as whole drops allow.</summary>
/// <param name="Steps">The ramp in whole drops, dark to light. Its ends are the ends of the path.</param>
/// <param name="Undivided">What each step would be if drops could be divided: even to within 1 % unless a remark says why not.</param>
/// <param name="Unevenness">
/// Standard deviation of the step sizes of <paramref name="Steps"/> divided by their mean, in the difference chosen, each size divided by its share.
/// </param>
/// <param name="Remarks">What is to be said of it, in plain words.</param>
public sealed record EvenRamp(IReadOnlyList<RampStep> Steps, IReadOnlyList<RampStep> Undivided, double Unevenness, IReadOnlyList<string> Remarks)
{
    /// <summary>The largest step, CIEDE2000.</summary>
    public double LargestDeltaE00 => Steps.Max(step => step.StepDeltaE00 ?? 0);

    /// <summary>The smallest step, CIEDE2000.</summary>
    public double SmallestDeltaE00 => Steps.Min(step => step.StepDeltaE00 ?? double.PositiveInfinity);

    /// <summary>Makes a ramp.</summary>
    /// <param name="through">Two or more recipes in the order of the path; each neighbouring pair is mixed with each other. The path is turned round where it would lead from light to dark.</param>
    /// <param name="view">How it is looked at.</param>
    /// <param name="options">What it should be like.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <exception cref="ArgumentException">Fewer than two recipes, the same twice in a row, one without pigment, an end that cannot be counted in so few drops, or options that contradict each other.</exception>
    public static EvenRamp Through(IReadOnlyList<Recipe> through, View view, RampOptions options, CancellationToken cancellation = default)
    {
        var path = new RampPath(through, view);
        options.Check(through.Count);

        // What must be a step: the ends, and what is kept between.
        var last = path.Nodes.Count - 1;
        int[] inside = [.. options.Kept.Select(place => path.Turned ? last - place : place).Where(place => place > 0 && place < last).Distinct().Order()];
        int[] kept = options.KeepEnds ? [0, .. inside, last] : inside;
        foreach (var place in kept.Where(place => !options.EndsArePainted || (place > 0 && place < last)))
        {
            RefuseUncountable(path.Nodes[place], options.Drops);
        }

        RefuseDescent([.. new[] { 0 }.Concat(inside).Append(last).Select(place => path.Nodes[place])], view);

        // First with drops that can be divided, then in whole ones.
        var measure = new StepMeasure(options.Difference, view.Condition);
        var even = Undivide(path, measure, [0, .. inside.Select(place => (double)place), path.End], options, cancellation);
        var whole = WholeDropRamp.On(path, view, options, kept, measure, options.FewestSteps ? even.Positions.Count : options.Steps, cancellation);

        var steps = Describe(whole.Recipes, view, measure, options, cancellation);
        return new EvenRamp(
            steps,
            Describe([.. even.Positions.Select(path.At)], view, measure, options, cancellation),
            MixEngine.Core.Unevenness.Of([.. steps.Skip(1).Zip(options.Weights(steps.Length - 1), (step, weight) => step.StepSize!.Value / weight)]),
            [.. RampRemarks.Of(path, options, even, whole, steps)]);
    }

    private static EvenSteps Undivide(RampPath path, StepMeasure measure, double[] kept, RampOptions options, CancellationToken cancellation)
    {
        var table = new ClimbTable(path, measure);
        if (!options.FewestSteps)
        {
            return EvenSteps.On(table, kept, options.Weights(options.Steps - 1), true, cancellation);
        }

        // The way is about as long as steps times their size: from there to the fewest that are small enough.
        var (least, most) = (kept.Length - 1, RampOptions.MostSteps - 1);
        var solved = new Dictionary<int, (EvenSteps Even, double Largest)>();
        (EvenSteps Even, double Largest) In(int steps)
        {
            if (!solved.TryGetValue(steps, out var known))
            {
                var weights = options.Weights(steps);
                var even = EvenSteps.On(table, kept, weights, false, cancellation);
                known = solved[steps] = (even, even.Sizes.Zip(weights, (size, weight) => size * weight).Max());
            }

            return known;
        }

        var limit = options.LargestStep!.Value * (1 + 1e-6);
        var count = least;
        while (count < most && In(count).Even.Sizes.Count == count && In(count).Largest > limit)
        {
            count = Math.Clamp((int)Math.Ceiling(count * In(count).Largest / limit), count + 1, most);
        }

        while (count > least && In(count - 1).Largest <= limit)
        {
            count--;
        }

        return In(count).Even.Reason is null ? In(count).Even : EvenSteps.On(table, kept, options.Weights(count), true, cancellation);
    }

    private static void RefuseUncountable(Recipe recipe, int drops)
    {
        var needed = recipe.InWholeDrops().Total;
        if (needed > drops)
        {
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"'{recipe}' must be a step of the ramp and takes {needed:0} drops to mix; at most {drops} are allowed. Ask for at least {needed:0} drops."));
        }
    }

    private static void RefuseDescent(IReadOnlyList<Recipe> kept, View view)
    {
        for (var i = 1; i < kept.Count; i++)
        {
            if (Prediction.LabOf(kept[i], view).L < Prediction.LabOf(kept[i - 1], view).L)
            {
                throw new ArgumentException($"'{kept[i]}' is darker than '{kept[i - 1]}' before it; a ramp goes from dark to light. Change their order, or do not keep one of them.");
            }
        }
    }

    internal static RampStep[] Describe(IReadOnlyList<Recipe> recipes, View view, StepMeasure measure, RampOptions options, CancellationToken cancellation)
    {
        var predictions = recipes.Select(recipe =>
        {
            cancellation.ThrowIfCancellationRequested();
            return Prediction.Of(recipe, view);
        }).ToArray();
        var labs = Array.ConvertAll(predictions, prediction => prediction.Appearance.Lab);
        var seen = labs.Skip(1).Zip(labs, (to, from) => DeltaE2000.Between(from, to)).ToArray();
        var shares = seen.Zip(options.Weights(seen.Length), (size, weight) => size / weight).ToArray();
        return
        [
            .. predictions.Select((prediction, i) => i == 0
                ? new RampStep(prediction, null, null, [])
                : new RampStep(prediction, seen[i - 1], measure.BetweenColors(labs[i - 1], labs[i]), [.. StepRemarks.Of(seen, shares, i - 1)])),
        ];
    }
}
