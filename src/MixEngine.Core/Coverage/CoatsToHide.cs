using System.Globalization;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>How many coats of a recipe hide what lies beneath (<see cref="Hidden"/> says when it counts as hidden).</summary>
/// <param name="Hiding">The recipe in a hiding layer.</param>
/// <param name="Count">Coats until hidden, 1 or more; null when not within <see cref="Coats.Most"/>.</param>
/// <param name="CountAtBest">The same if the paint hides as well as it may (95 %); null when not within the limit.</param>
/// <param name="CountAtWorst">The same if it hides as badly as it may; null when not within the limit.</param>
/// <param name="Steps">Coat by coat until hidden, or up to the limit.</param>
/// <param name="Remarks">What is to be said of it, in plain words.</param>
public sealed record CoatsToHide(
    Appearance Hiding, int? Count, int? CountAtBest, int? CountAtWorst, IReadOnlyList<CoverCoat> Steps, IReadOnlyList<string> Remarks)
{
    /// <summary>Counts the coats over a surface.</summary>
    /// <param name="surface">What is to be hidden, such as a primer.</param>
    /// <param name="recipe">What is brushed on.</param>
    /// <param name="view">How it is looked at.</param>
    /// <param name="coatUm">Dry thickness of one coat of undiluted paint, µm.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <exception cref="ArgumentException">There is no pigment in the recipe: it hides nothing.</exception>
    public static CoatsToHide Over(
        PaintedSurface surface, Recipe recipe, View view, double coatUm = Film.ConventionalCoatUm, CancellationToken cancellation = default)
    {
        var hiding = PaintedSurface.OfHidingLayer(recipe).Stack().Under(view);

        // Coat on until hidden.
        var after = new List<SeenStack>();
        int? hidden = null;
        foreach (var stack in new Coats(recipe, Coats.Most, coatUm).Over(surface.Stack()))
        {
            after.Add(stack);
            if (Hidden.Is(stack.LabUnder(view), hiding.Lab))
            {
                hidden = after.Count;
                break;
            }
        }

        // How sure the colours are, with all that may be otherwise.
        var painted = new Coats(recipe, after.Count, coatUm);
        var errors = ExpectedError.Propagate(
            [.. surface.Parts, .. recipe.Parts],
            perturbation =>
            {
                cancellation.ThrowIfCancellationRequested();
                return [.. painted.Over(surface.Stack(perturbation), perturbation).Select(stack => stack.LabUnder(view))];
            },
            coatScatter: Film.ThicknessScatter);

        // How sure the count is.
        var interval = new HidingThickness(surface, recipe, view, coatUm).Interval();
        var best = interval is { } i ? Whole(Math.Min(i.Best, hidden ?? i.Best)) : hidden;
        var worst = interval is { } j ? Whole(Math.Max(j.Worst, hidden ?? j.Worst)) : null;

        var contrasts = ContrastChart.RatiosOf(painted, view);
        CoverCoat[] steps =
        [
            .. after.Select((stack, n) =>
            {
                var appearance = stack.Under(view);
                return new CoverCoat(n + 1, appearance, contrasts[n], DeltaE2000.Between(appearance.Lab, hiding.Lab), errors[n]);
            }),
        ];
        return new CoatsToHide(hiding, hidden, best, worst, steps, [.. surface.Remarks, .. LetDownLimits.Remarks(recipe), .. Remarked(hidden, worst, steps, hiding.Lab)]);
    }

    /// <summary>The coats until hidden, without asking how sure it is; null when so many are not enough.</summary>
    public static int? CountOver(SeenStack beneath, Recipe recipe, View view, double coatUm, int most)
    {
        var hiding = PaintedSurface.OfHidingLayer(recipe).Stack().LabUnder(view);
        var count = 0;
        foreach (var stack in new Coats(recipe, most, coatUm).Over(beneath))
        {
            count++;
            if (Hidden.Is(stack.LabUnder(view), hiding))
            {
                return count;
            }
        }

        return null;
    }

    private static int? Whole(double coats) => coats <= Coats.Most ? Math.Max(1, (int)Math.Ceiling(coats - 1e-9)) : null;

    private static IEnumerable<string> Remarked(int? hidden, int? worst, CoverCoat[] steps, Lab hiding)
    {
        if (hidden is null)
        {
            yield return Text($"Not hidden within {Coats.Most} coats: after the last one {steps[^1].RemainingDeltaE00:0.0} dE00 remain. Brush a hiding layer of a like colour first.");
            yield break;
        }

        var byLuminance = steps.First(step => Hidden.HoldsContrast(step.Appearance.Lab, hiding)).Coat;
        if (byLuminance < hidden)
        {
            yield return Text($"Its luminance is hidden after {byLuminance} coats, its colour after {hidden}.");
        }

        if (worst is null)
        {
            yield return Text($"What is known of this paint allows that {Coats.Most} coats do not hide it: brush it across a black line and see.");
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

/// <summary>A surface after one more coat.</summary>
/// <param name="Coat">1 for the first.</param>
/// <param name="Appearance">Its colour.</param>
/// <param name="ContrastRatio">Luminance of so many coats over the black chart divided by that over the white one, 0 to 1 [ISO6504-3].</param>
/// <param name="RemainingDeltaE00">Difference from the paint in a hiding layer.</param>
/// <param name="ExpectedError">How far the real one may lie from it.</param>
public sealed record CoverCoat(int Coat, Appearance Appearance, double ContrastRatio, double RemainingDeltaE00, ExpectedError ExpectedError);
