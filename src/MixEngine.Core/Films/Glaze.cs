using System.Globalization;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>A let-down recipe brushed over something, coat by coat.</summary>
/// <param name="Beneath">What it was before.</param>
/// <param name="Recipe">What is brushed on, medium and water counted.</param>
/// <param name="Coats">What it is after each coat, the first first.</param>
/// <param name="Remarks">What is to be said of it, in plain words.</param>
public sealed record Glaze(Appearance Beneath, Recipe Recipe, IReadOnlyList<GlazeCoat> Coats, IReadOnlyList<string> Remarks)
{
    /// <summary>A step below which an eye sees nothing, CIEDE2000: half of what a trained eye just sees side by side (common practice, no source).</summary>
    public const double Invisible = 0.5;

    /// <summary>Brushes coats over a surface and looks after each.</summary>
    /// <param name="surface">What lies beneath.</param>
    /// <param name="coats">What is brushed on.</param>
    /// <param name="view">How it is looked at.</param>
    /// <param name="cancellation">Ends the work.</param>
    public static Glaze Over(PaintedSurface surface, Coats coats, View view, CancellationToken cancellation = default)
    {
        // What it is before, and after each coat.
        var bare = surface.Stack();
        var beneath = bare.Under(view);
        var after = coats.Over(bare).Select(stack => stack.Under(view)).ToArray();

        // How sure that is: the same brushwork with other paints, doses and thicknesses.
        var errors = ExpectedError.Propagate(
            [.. surface.Parts, .. coats.Recipe.Parts],
            perturbation =>
            {
                cancellation.ThrowIfCancellationRequested();
                return [.. coats.Over(surface.Stack(perturbation), perturbation).Select(stack => stack.LabUnder(view))];
            },
            coats.Recipe.HasPigment ? ExpectedError.ModelResidual : 0,
            Film.ThicknessScatter);

        var steps = new GlazeCoat[after.Length];
        for (var i = 0; i < steps.Length; i++)
        {
            var before = i == 0 ? beneath : after[i - 1];
            steps[i] = new GlazeCoat(
                i + 1, after[i], errors[i],
                DeltaE2000.Between(before.Lab, after[i].Lab),
                DeltaE2000.Between(beneath.Lab, after[i].Lab));
        }

        return new Glaze(beneath, coats.Recipe, steps, [.. surface.Remarks, .. LetDownLimits.Remarks(coats.Recipe), .. Remarked(coats, steps, view)]);
    }

    private static IEnumerable<string> Remarked(Coats coats, GlazeCoat[] steps, View view)
    {
        if (!coats.Recipe.HasPigment)
        {
            yield break;
        }

        // Said once: when what lies beneath has gone, and when a further coat can no longer be seen.
        var hiding = PaintedSurface.OfHidingLayer(coats.Recipe).Stack().LabUnder(view);
        if (steps.FirstOrDefault(step => DeltaE2000.Between(step.Appearance.Lab, hiding) < Invisible) is { } hidden)
        {
            yield return Text($"From coat {hidden.Coat} on nothing shows of what lies beneath: this is a hiding layer, not a glaze.");
        }
        else if (steps.FirstOrDefault(step => step.StepDeltaE00 < Invisible) is { } unseen)
        {
            yield return Text($"Coat {unseen.Coat} changes {unseen.StepDeltaE00:0.0} dE00, less than an eye sees in one step.");
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

/// <summary>What a glaze looks like after one more coat.</summary>
/// <param name="Coat">1 for the first.</param>
/// <param name="Appearance">Its colour.</param>
/// <param name="ExpectedError">How far the real one may lie from it.</param>
/// <param name="StepDeltaE00">Difference from the coat before; from what lies beneath, at the first.</param>
/// <param name="TotalDeltaE00">Difference from what lies beneath.</param>
public sealed record GlazeCoat(int Coat, Appearance Appearance, ExpectedError ExpectedError, double StepDeltaE00, double TotalDeltaE00);
