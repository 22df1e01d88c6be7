using System.Globalization;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>Steps from dark to light through two or more recipes, as even to the eye as whole drops allow.</summary>
/// <param name="Steps">The ramp in whole drops, dark to light. Its ends are the ends of the path.</param>
/// <param name="Undivided">What each step would be if drops could be divided: even to within 1 % unless a remark says why not.</param>
/// <param name="Unevenness">Standard deviation of the step sizes of <paramref name="Steps"/> divided by their mean, in the difference chosen.</param>
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
    /// <exception cref="ArgumentException">Fewer than two recipes, the same twice in a row, one without pigment, or an end that cannot be counted in so few drops.</exception>
    public static EvenRamp Through(IReadOnlyList<Recipe> through, View view, RampOptions options, CancellationToken cancellation = default)
    {
        var path = new RampPath(through, view);
        RefuseUncountable(path.Nodes[0], options.Drops);
        RefuseUncountable(path.Nodes[^1], options.Drops);

        var measure = new StepMeasure(options.Difference);
        var even = EvenSteps.On(path, measure, [.. Enumerable.Repeat(1.0, options.Steps - 1)], cancellation);
        var whole = WholeDropRamp.On(path, view, options, measure, cancellation);

        var undivided = StepsOf([.. even.Positions.Select(path.At)], view);
        var steps = StepsOf(whole.Recipes, view);
        var unevenness = MixEngine.Core.Unevenness.Of([.. steps.Skip(1).Zip(steps, (to, from) =>
            measure.Between(measure.Coordinates(from.Prediction.Appearance.Lab), measure.Coordinates(to.Prediction.Appearance.Lab)))]);
        return new EvenRamp(steps, undivided, unevenness, [.. Remarked(path, options, even, whole, steps)]);
    }

    private static void RefuseUncountable(Recipe end, int drops)
    {
        var needed = end.InWholeDrops().Total;
        if (needed > drops)
        {
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"'{end}' is an end of the ramp and takes {needed:0} drops to mix; at most {drops} are allowed. Ask for at least {needed:0} drops."));
        }
    }

    private static RampStep[] StepsOf(IReadOnlyList<Recipe> recipes, View view)
    {
        var predictions = recipes.Select(recipe => Prediction.Of(recipe, view)).ToArray();
        var sizes = predictions.Skip(1).Zip(predictions, (to, from) => DeltaE2000.Between(from.Appearance.Lab, to.Appearance.Lab)).ToArray();
        return [.. predictions.Select((prediction, i) => new RampStep(prediction, i == 0 ? null : sizes[i - 1], i == 0 ? [] : [.. StepRemarks.Of(sizes, i - 1)]))];
    }

    private static IEnumerable<string> Remarked(RampPath path, RampOptions options, EvenSteps even, WholeDropRamp whole, RampStep[] steps)
    {
        if (path.Turned)
        {
            yield return $"Turned round to go from dark to light: it starts at '{path.Nodes[0]}'.";
        }

        if (steps.Length < options.Steps)
        {
            yield return Text($"Only {steps.Length} of the {options.Steps} steps asked for exist: with at most {options.Drops} drops there are no more mixtures on this way of which none is darker than the one before.");
        }

        if (whole.LookedAt < options.Drops)
        {
            yield return Text($"Mixtures of up to {whole.LookedAt} drops were looked at; finer ones on this way differ by less than an eye sees.");
        }

        if (even.Reason is { } reason)
        {
            yield return Text($"Even if drops could be divided the steps would be uneven, the worst by {100 * even.WorstDeviation:0} %: {reason}");
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
