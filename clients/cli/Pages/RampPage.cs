using MixEngine.Cli.Terminal;
using MixEngine.V1;

namespace MixEngine.Cli.Pages;

internal static class RampPage
{
    public static void Write(Page page, RampResponse answer)
    {
        // Each step, and between two of them how far the eye has to jump.
        for (int i = 0; i < answer.Steps.Count; i++)
        {
            RampStep step = answer.Steps[i];
            if (step.HasStepDeltaE00)
            {
                page.Line($"      jump {Numerals.Difference(step.StepDeltaE00),4}  {Phrases.Bar(step.StepDeltaE00, answer.LargestDeltaE00)}");
            }
            page.Beside($"  {i + 1,2}  ", step.Color.Hex,
                step.Recipe.Text,
                $"{step.Color.Words}, {Phrases.PlusMinus(step.ExpectedError)}",
                Phrases.Numbers(step.Color));
            page.Remarks(step.Remarks, indent: 6);
        }
        if (answer.Steps.Count == 0)
        {
            page.Line("  No step.");
            return;
        }

        page.Line();
        if (answer.HasSmallestDeltaE00 && answer.HasLargestDeltaE00)
        {
            page.Line($"  Jumps from {Numerals.Difference(answer.SmallestDeltaE00)} to {Numerals.Difference(answer.LargestDeltaE00)}, dark to light.");
        }
        page.Remarks(answer.Remarks);
        if (answer.UndividedSteps.Count > 0)
        {
            page.Line("  With less than a drop, even to the eye:");
            foreach (RampStep step in answer.UndividedSteps)
            {
                page.Line($"      {Phrases.Shares(step.Recipe)}");
            }
        }
        page.Line($"  Under {Phrases.Conditions(answer.Steps[0].Color)}; jumps and ± (nineteen times in twenty) are CIEDE2000.");
    }
}
