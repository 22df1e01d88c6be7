using MixEngine.Cli.Terminal;
using MixEngine.V1;

namespace MixEngine.Cli.Pages;

internal static class AuditPage
{
    public static void Write(Page page, AuditRampResponse answer)
    {
        // Each step with its number as given, and between two of them how far the eye has to jump.
        foreach (AuditedStep audited in answer.Steps)
        {
            RampStep step = audited.Step;
            if (step.HasStepDeltaE00)
            {
                page.Line($"      jump {Numerals.Difference(step.StepDeltaE00),4}  {Phrases.Bar(step.StepDeltaE00, answer.LargestDeltaE00)}");
            }
            page.Beside($"  {audited.Number,2}  ", step.Color.Hex, step.Recipe.Text, $"{step.Color.Words}, {Phrases.PlusMinus(step.ExpectedError)}", Phrases.Numbers(step.Color));
        }
        page.Line();
        if (answer.Faults.Count == 0)
        {
            page.Line("  Even: nothing to mend.");
        }
        foreach (RampFault fault in answer.Faults)
        {
            page.Prose(fault.Words, 2);
        }
        page.Remarks(answer.Notes.Select(note => note.Words));
        page.Remarks(answer.Remarks);
        if (answer.Mending is { } mending)
        {
            Write(page, mending);
        }
        if (answer.Steps.Count > 0)
        {
            page.Line($"  Under {Phrases.Conditions(answer.Steps[0].Step.Color)}; jumps and ± (nineteen times in twenty) are CIEDE2000.");
        }
    }

    private static void Write(Page page, RampMending mending)
    {
        page.Line();
        page.Line(mending.Changes.Count == 0 ? "  No small change mends it." : $"  Mended by {Phrases.Count(mending.DropsChanged, "drop")}:");
        foreach (RampChange change in mending.Changes)
        {
            page.Line($"    step {change.Step}: {change.To.Text}");
            page.Line($"            instead of {change.From.Text}");
        }
        if (mending.Changes.Count > 0)
        {
            string left = mending.FaultsLeft == 0 ? "" : $"; {Phrases.Count(mending.FaultsLeft, "fault")} left";
            page.Line($"    jumps then: {string.Join("  ", mending.StepDeltaE00.Select(Numerals.Difference))}{left}");
        }
        foreach (string way in mending.Alternatives)
        {
            page.Prose(way, 6, "  Or: ");
        }
    }
}
