using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// A ramp seen in another way than it was mixed for: under a varnish, under another lamp, by other eyes. What happens to its steps.
/// </summary>
/// <param name="Name">The other way of seeing it, such as "gloss", "A" or "deutan".</param>
/// <param name="Steps">The steps, dark to light.</param>
/// <param name="Remarks">Steps that merge, open up or turn round, in plain words.</param>
public sealed record RampLook(string Name, IReadOnlyList<RampLookStep> Steps, IReadOnlyList<string> Remarks)
{
    /// <summary>The smallest step, CIEDE2000.</summary>
    public double SmallestDeltaE00 => Steps.Min(step => step.StepDeltaE00 ?? double.PositiveInfinity);

    /// <summary>The largest step, CIEDE2000.</summary>
    public double LargestDeltaE00 => Steps.Max(step => step.StepDeltaE00 ?? 0);

    /// <summary>A ramp in another finish: what a varnish does to it.</summary>
    public static RampLook InFinish(IReadOnlyList<Recipe> ramp, View view, Finish finish) =>
        Of(finish.ToString().ToLowerInvariant(), ramp, view, recipe => Prediction.AppearanceOf(recipe, view with { Finish = finish }), Same);

    /// <summary>A ramp under another lamp, the eye adapted to it: shown as it would look under the first.</summary>
    public static RampLook UnderLamp(IReadOnlyList<Recipe> ramp, View view, Illuminant lamp)
    {
        var there = view with { Condition = view.Condition with { Illuminant = lamp } };
        return Of(lamp.Name, ramp, view, recipe => Prediction.AppearanceOf(recipe, there), seen => LampLook.Adapted(seen, view.Condition));
    }

    /// <summary>A ramp as seen by an eye with a colour-vision deficiency.</summary>
    public static RampLook ToEye(IReadOnlyList<Recipe> ramp, View view, ColorVision eye)
    {
        var white = TristimulusWeights.For(view.Condition).White;
        Appearance Seen(Recipe recipe)
        {
            var plain = Prediction.AppearanceOf(recipe, view);
            var xyz = eye.Simulate(plain.Xyz, white);
            return plain with { Xyz = xyz, Lab = Lab.FromXyz(xyz, white), Display = DisplayColor.From(xyz, white) };
        }

        return Of(eye.Name, ramp, view, Seen, Same);
    }

    private static Lab Same(Appearance seen) => seen.Lab;

    private static RampLook Of(string name, IReadOnlyList<Recipe> ramp, View view, Func<Recipe, Appearance> look, Func<Appearance, Lab> comparable)
    {
        // Dark to light, as it was mixed.
        var turned = Prediction.LabOf(ramp[^1], view).L < Prediction.LabOf(ramp[0], view).L;
        Recipe[] ordered = turned ? [.. ramp.Reverse()] : [.. ramp];
        var before = ordered.Select(recipe => Prediction.AppearanceOf(recipe, view)).ToArray();
        var after = ordered.Select(look).ToArray();
        double? Size(Appearance[] seen, int i) => i == 0 ? null : DeltaE2000.Between(seen[i - 1].Lab, seen[i].Lab);
        RampLookStep[] steps =
        [
            .. ordered.Select((recipe, i) => new RampLookStep(
                turned ? ordered.Length - i : i + 1, recipe, before[i], after[i], DeltaE2000.Between(before[i].Lab, comparable(after[i])), Size(before, i), Size(after, i))),
        ];
        return new RampLook(name, steps, [.. Remarked(steps)]);
    }

    private static IEnumerable<string> Remarked(RampLookStep[] steps)
    {
        for (var i = 1; i < steps.Length; i++)
        {
            var (from, to) = (steps[i - 1].Number, steps[i].Number);
            var (was, now) = (steps[i].StepBeforeDeltaE00!.Value, steps[i].StepDeltaE00!.Value);
            if (now < StepRemarks.HardlySeen && was >= StepRemarks.HardlySeen)
            {
                yield return Text($"Steps {from} and {to} merge: {was:0.0} dE00 before, {now:0.0} after.");
            }
            else if (now < RampFaults.TooClose * was)
            {
                yield return Text($"Steps {from} and {to} come close: {was:0.0} dE00 before, {now:0.0} after.");
            }
            else if (now > StepRemarks.Band * was && now >= StepRemarks.SmallestBand)
            {
                yield return Text($"Steps {from} and {to} open up: {was:0.0} dE00 before, {now:0.0} after.");
            }

            if (steps[i].After.Lab.L < steps[i - 1].After.Lab.L - 0.1 && steps[i].Before.Lab.L >= steps[i - 1].Before.Lab.L)
            {
                yield return Text($"Step {to} becomes darker than step {from}: L {steps[i].After.Lab.L:0.0} after {steps[i - 1].After.Lab.L:0.0}.");
            }
        }
    }

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}

/// <summary>One step of a ramp seen in another way.</summary>
/// <param name="Number">Its place as the ramp was given, counted from 1.</param>
/// <param name="Recipe">Its recipe.</param>
/// <param name="Before">As it was mixed for.</param>
/// <param name="After">As it is seen now.</param>
/// <param name="ShiftDeltaE00">How far its colour moves.</param>
/// <param name="StepBeforeDeltaE00">Difference from the step before, as it was; null at the first.</param>
/// <param name="StepDeltaE00">The same as it is now.</param>
public sealed record RampLookStep(int Number, Recipe Recipe, Appearance Before, Appearance After, double ShiftDeltaE00, double? StepBeforeDeltaE00, double? StepDeltaE00);
