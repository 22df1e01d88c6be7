using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>At which end a ramp goes on.</summary>
public enum RampEnd
{
    /// <summary>A step lighter than the lightest.</summary>
    Light,

    /// <summary>A step darker than the darkest.</summary>
    Dark,
}

/// <summary>One more step at an end of a ramp.</summary>
/// <param name="Prediction">Its recipe, colour and expected error.</param>
/// <param name="With">The paint that is added to the last step.</param>
/// <param name="StepDeltaE00">Difference from the last step, CIEDE2000.</param>
/// <param name="Shift">How the colour moves from the last step to it.</param>
public sealed record RampExtension(Prediction Prediction, Paint With, double StepDeltaE00, ColorShift Shift)
{
    /// <summary>How many are answered at most.</summary>
    public const int Answers = 3;

    /// <summary>Goes on by a step of the ramp's usual size: the last recipe with some of one more paint, hue and chroma kept where they can be.</summary>
    /// <param name="ramp">Two or more recipes, dark to light or light to dark.</param>
    /// <param name="end">Where to go on.</param>
    /// <param name="with">The paints to go on with; medium and water are left out.</param>
    /// <param name="view">How it is looked at.</param>
    /// <param name="options">Drops in one step, at most.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <returns>The best of each paint, the best first; empty where none of the paints leads further.</returns>
    /// <exception cref="ArgumentException">There are fewer than two recipes, or one is without pigment.</exception>
    public static IReadOnlyList<RampExtension> Of(
        IReadOnlyList<Recipe> ramp, RampEnd end, IEnumerable<Paint> with, View view, RampOptions options, CancellationToken cancellation = default)
    {
        if (ramp.Count < 2)
        {
            throw new ArgumentException("A ramp has two or more steps; only then is there a usual step to go on by.", nameof(ramp));
        }

        var labs = ramp.Select(recipe => Prediction.LabOf(recipe, view)).ToArray();
        var usual = RampFaults.Median([.. labs.Skip(1).Zip(labs, DeltaE2000.Between)]);
        var last = (labs[^1].L >= labs[0].L) == (end == RampEnd.Light) ? ramp.Count - 1 : 0;
        var (from, here) = (ramp[last], labs[last]);
        bool Leads(Lab lab) => end == RampEnd.Light ? lab.L > here.L : lab.L < here.L;

        // Of each paint the best share; of all paints the best few.
        var found = new List<(double Cost, double Drops, Recipe Recipe, Paint With)>();
        foreach (var paint in with.Where(paint => paint.Kind == PaintKind.Paint && !RampLeg.AreSame(from, Recipe.Of(paint))))
        {
            cancellation.ThrowIfCancellationRequested();
            var best = new RampLeg(from, Recipe.Of(paint)).WholeDrops(options.Drops).Select(mixture => mixture.Recipe).Append(Recipe.Of(paint))
                .Select(recipe => (Recipe: recipe, Lab: Prediction.LabOf(recipe, view)))
                .Where(step => Leads(step.Lab))
                .Select(step => (Cost: CostOf(here, step.Lab, usual), Drops: step.Recipe.Total, step.Recipe, With: paint))
                .OrderBy(step => step.Cost).ThenBy(step => step.Drops).Take(1);
            found.AddRange(best);
        }

        return
        [
            .. found.OrderBy(step => step.Cost).ThenBy(step => step.Drops).ThenBy(step => step.With.Id, StringComparer.Ordinal).Take(Answers).Select(step =>
            {
                var prediction = Prediction.Of(step.Recipe, view);
                return new RampExtension(prediction, step.With, DeltaE2000.Between(here, prediction.Appearance.Lab), ColorShift.Between(here, prediction.Appearance.Lab));
            }),
        ];
    }

    // Off the usual size, off the hue, and half of what chroma is lost: neighbours keep their hue, and white chalks (common practice, no source).
    private static double CostOf(Lab from, Lab to, double usual)
    {
        var shift = ColorShift.Between(from, to);
        return Math.Abs(shift.DeltaE00 - usual) + shift.Hue + 0.5 * Math.Max(0, -shift.Vividness);
    }
}
