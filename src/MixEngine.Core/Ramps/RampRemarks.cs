namespace MixEngine.Core;

/// <summary>What is to be said of a ramp as a whole.</summary>
internal static class RampRemarks
{
    public static IEnumerable<string> Of(RampPath path, RampOptions options, EvenSteps even, WholeDropRamp whole, IReadOnlyList<RampStep> steps)
    {
        if (path.Turned)
        {
            yield return $"Turned round to go from dark to light: it starts at '{path.Nodes[0]}'.";
        }

        var sizes = steps.Skip(1).Select(step => step.StepSize!.Value).ToArray();
        if (options.FewestSteps)
        {
            yield return whole.WithinLimits
                ? Text($"{steps.Count} steps keep every step within {options.LargestStep:0.##}.")
                : Text($"With at most {options.Drops} drops no number of steps keeps every step within {options.LargestStep:0.##}; the largest is {sizes.Max():0.0}. More drops make finer steps.");
        }
        else if (!whole.WithinLimits)
        {
            yield return Text($"With at most {options.Drops} drops no ramp on this way keeps within the limits asked for: the steps are {sizes.Min():0.0} to {sizes.Max():0.0}.");
        }
        else if (steps.Count < options.Steps && options.SmallestStep is null && options.LargestStep is null)
        {
            yield return Text($"Only {steps.Count} of the {options.Steps} steps asked for exist: with at most {options.Drops} drops there are no more mixtures on this way of which none is darker than the one before.");
        }
        else if (steps.Count != options.Steps)
        {
            yield return Text($"{steps.Count} steps instead of {options.Steps}: so many keep within the limits asked for.");
        }

        if (whole.Spacing > 0)
        {
            yield return Text($"Of {whole.Mixtures} mixtures in at most {options.Drops} drops the simplest were looked at; every other is within {whole.Spacing:0.00} of one of them, which an eye does not see.");
        }

        if (even.Reason is { } reason)
        {
            yield return Text($"Even if drops could be divided the steps would be uneven, the worst by {100 * even.WorstDeviation:0} %: {reason}");
        }
    }

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}
