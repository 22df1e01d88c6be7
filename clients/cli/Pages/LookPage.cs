using MixEngine.Cli.Terminal;
using MixEngine.V1;

namespace MixEngine.Cli.Pages;

internal static class LookPage
{
    public static void Write(Page page, LightResponse answer)
    {
        Write(page, answer.Looks);
        foreach (LampMatch match in answer.Matches)
        {
            page.Line($"  {match.Lamp}: recipe {match.RecipeNumber} is {Numerals.Difference(match.DeltaE00)} from the target, {Numerals.Difference(match.MetamerismIndex)} of metamerism");
        }
        page.Line($"  Worst lamp: {answer.WorstLamp}.");
        page.Remarks(answer.Remarks);
    }

    public static void Write(Page page, IReadOnlyList<RampLook> looks)
    {
        foreach (RampLook look in looks)
        {
            page.Line(look.Name);
            foreach (RampLookStep step in look.Steps)
            {
                if (step.HasStepDeltaE00)
                {
                    page.Line($"      jump {Numerals.Difference(step.StepDeltaE00),4}, before {Numerals.Difference(step.StepBeforeDeltaE00)}");
                }
                page.Beside($"  {step.Number,2}  ", step.After.Hex,
                    step.Recipe.Text,
                    $"{step.After.Words}, moved {Numerals.Difference(step.ShiftDeltaE00)} from {step.Before.Hex}",
                    Phrases.Numbers(step.After));
            }
            page.Remarks(look.Remarks);
            page.Line();
        }
        page.Line("  Jumps and moves are CIEDE2000.");
    }
}
