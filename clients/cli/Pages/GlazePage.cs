using MixEngine.Cli.Terminal;
using MixEngine.V1;

namespace MixEngine.Cli.Pages;

internal static class GlazePage
{
    public static void Write(Page page, GlazeResponse answer)
    {
        page.Line($"Glaze: {answer.Recipe.Text}");
        page.Beside("  over    ", answer.Over.Hex, answer.Over.Words, Phrases.Numbers(answer.Over));
        foreach (CoatResult coat in answer.Coats)
        {
            string moved = coat.HasStepDeltaE00 ? $"moved {Numerals.Difference(coat.StepDeltaE00)}" : "";
            string total = coat is { HasTotalDeltaE00: true, Coat: > 1 } ? $", {Numerals.Difference(coat.TotalDeltaE00)} in all" : "";
            page.Beside($"  {"coat " + coat.Coat,-8}", coat.Color.Hex,
                $"{coat.Color.Words}, {Phrases.PlusMinus(coat.ExpectedError)}",
                Phrases.Numbers(coat.Color),
                moved + total);
        }
        page.Remarks(answer.Remarks);
        page.Line();
        page.Line($"  Under {Phrases.Conditions(answer.Over)}; differences and ± (nineteen times in twenty) are CIEDE2000.");
    }
}
