using MixEngine.Cli.Terminal;
using MixEngine.V1;

namespace MixEngine.Cli.Pages;

internal static class RampInUsePage
{
    public static void Write(Page page, ExtendRampResponse answer)
    {
        string before = "Next";
        foreach (RampExtension extension in answer.Extensions)
        {
            page.Line(before);
            RampStep step = extension.Step;
            page.Beside("  ", step.Color.Hex,
                $"{step.Recipe.Text}, jump {Numerals.Difference(step.StepDeltaE00)}",
                $"{step.Color.Words}, {Phrases.PlusMinus(step.ExpectedError)}",
                Phrases.Numbers(step.Color),
                $"with {extension.WithPaint}: {extension.Words}");
            before = "Or";
        }
        page.Remarks(answer.Remarks);
        if (answer.Extensions.Count > 0)
        {
            page.Line();
            page.Line($"  Under {Phrases.Conditions(answer.Extensions[0].Step.Color)}; jumps and ± (nineteen times in twenty) are CIEDE2000.");
        }
    }

    public static void Write(Page page, StepBetweenResponse answer)
    {
        page.Beside("  dark     ", answer.Darker.Hex, answer.Darker.Words, Phrases.Numbers(answer.Darker));
        if (answer.Between is { } step)
        {
            page.Line($"      jump {Numerals.Difference(answer.FromDarkerDeltaE00)}");
            page.Beside("  between  ", step.Color.Hex, step.Recipe.Text, $"{step.Color.Words}, {Phrases.PlusMinus(step.ExpectedError)}", Phrases.Numbers(step.Color));
            page.Line($"      jump {Numerals.Difference(answer.ToLighterDeltaE00)}");
        }
        else
        {
            page.Prose(answer.Reason, 6);
        }
        page.Beside("  light    ", answer.Lighter.Hex, answer.Lighter.Words, Phrases.Numbers(answer.Lighter));
        page.Line();
        page.Line($"  Under {Phrases.Conditions(answer.Darker)}; jumps and ± (nineteen times in twenty) are CIEDE2000.");
    }

    public static void Write(Page page, RampAroundResponse answer)
    {
        page.Line("Around");
        page.Beside("  ", answer.Target.Hex, answer.Target.Words, Phrases.Numbers(answer.Target));
        page.Line($"Mid-tone: step {answer.MiddleStep}, {answer.Middle.Recipe.Text}, {Numerals.Difference(answer.Middle.DeltaE00)} away");
        foreach (var (wing, word) in new[] { (answer.Shadow, "Shadow"), (answer.Light, "Light") })
        {
            if (wing is not null)
            {
                page.Line($"{word}: with {string.Join(" + ", wing.Added.Parts.Select(part => part.Paint))}");
            }
        }
        page.Remarks(answer.Remarks.Except(answer.Ramp.Remarks));
        page.Line();
        RampPage.Write(page, answer.Ramp);
    }
}
