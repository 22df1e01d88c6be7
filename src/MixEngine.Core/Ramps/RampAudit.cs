using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>A ramp that someone uses already, looked at: the sizes of its steps, its faults, and the smallest change in drops that mends them.</summary>
/// <param name="Steps">The recipes, dark to light.</param>
/// <param name="Numbers">The number of each step as the ramp was given, counted from 1.</param>
/// <param name="Faults">What is wrong with the steps; empty for an even ramp.</param>
/// <param name="Notes">What the colour does on the way. It may be meant.</param>
/// <param name="Mending">The smallest change that mends the faults; null where there are none.</param>
/// <param name="Unevenness">Standard deviation of the step sizes divided by their mean, CIEDE2000.</param>
/// <param name="Remarks">What else is to be said, in plain words.</param>
public sealed record RampAudit(
    IReadOnlyList<RampStep> Steps, IReadOnlyList<int> Numbers, IReadOnlyList<RampFault> Faults, IReadOnlyList<RampColorNote> Notes,
    RampMending? Mending, double Unevenness, IReadOnlyList<string> Remarks)
{
    /// <summary>Audits a ramp.</summary>
    /// <param name="recipes">Two or more, in the order in which they are painted. A ramp given from light to dark is read backwards.</param>
    /// <param name="view">How it is looked at.</param>
    /// <param name="options">Drops up to which a step may be changed, and how the steps are meant to shrink.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <exception cref="ArgumentException">Fewer than two recipes, or more than 64, or one without pigment.</exception>
    public static RampAudit Of(IReadOnlyList<Recipe> recipes, View view, RampOptions options, CancellationToken cancellation = default)
    {
        if (recipes.Count is < 2 or > RampOptions.MostSteps)
        {
            throw new ArgumentException($"{recipes.Count} recipes are given; a ramp has 2 to {RampOptions.MostSteps} steps.", nameof(recipes));
        }

        // Dark to light; the numbers stay as given.
        var turned = Prediction.LabOf(recipes[^1], view).L < Prediction.LabOf(recipes[0], view).L;
        Recipe[] ordered = turned ? [.. recipes.Reverse()] : [.. recipes];
        int Number(int place) => turned ? ordered.Length - place : place + 1;

        var steps = EvenRamp.Describe(ordered, view, new StepMeasure(options.Difference, view.Condition), options, cancellation);
        Lab[] labs = [.. steps.Select(step => step.Prediction.Appearance.Lab)];
        var weights = options.Weights(labs.Length - 1);
        var faults = new RampFaults(labs, weights).Find(Number);
        return new RampAudit(
            steps,
            [.. Enumerable.Range(0, ordered.Length).Select(Number)],
            faults,
            [.. RampColorNotes.Of(labs, Number)],
            faults.Count == 0 ? null : RampMending.Of(ordered, faults, Number, view, options, cancellation),
            MixEngine.Core.Unevenness.Of([.. steps.Skip(1).Zip(weights, (step, weight) => step.StepDeltaE00!.Value / weight)]),
            turned ? ["The ramp is given from light to dark; it is looked at from dark to light, and its steps keep their numbers."] : []);
    }
}
