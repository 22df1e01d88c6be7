using MixEngine.Cli.Terminal;
using MixEngine.V1;

namespace MixEngine.Cli.Pages;

internal static class CoverPage
{
    /// <summary>As many coats of one primer as are shown before the last.</summary>
    private const int MostCoats = 5;

    public static void Write(Page page, CoverResponse answer)
    {
        page.Line(answer.Recipe.Text);
        page.Beside("  ", answer.Color.Hex, answer.Color.Words, Phrases.Numbers(answer.Color));
        foreach (CoverResult primer in answer.Primers)
        {
            page.Line();
            page.Line($"Over {primer.Primer}: {Verdict(primer)}");
            for (int i = 0; i < primer.Steps.Count; i++)
            {
                if (i < MostCoats || i == primer.Steps.Count - 1)
                {
                    Write(page, primer.Steps[i]);
                }
                else if (i == MostCoats)
                {
                    page.Line("  ...");
                }
            }
        }
        page.Remarks(answer.Remarks);
        page.Line();
        page.Line("  Hidden: a contrast ratio of 98 % (ISO 6504-3). Still to go, to the paint in full: CIEDE2000.");
        page.Line($"  Under {Phrases.Conditions(answer.Color)}.");
    }

    private static void Write(Page page, CoverCoat coat)
    {
        string contrast = coat.HasContrastRatio ? $"contrast ratio {Numerals.One(100 * coat.ContrastRatio)} %" : "";
        string rest = coat.HasRemainingDeltaE00 ? $", {Numerals.Difference(coat.RemainingDeltaE00)} still to go" : "";
        page.Beside($"  {"coat " + coat.Coat,-9}", coat.Color.Hex, $"{coat.Color.Words}   {Phrases.Numbers(coat.Color)}", contrast + rest);
    }

    private static string Verdict(CoverResult primer)
    {
        string range = primer switch
        {
            { HasCoatsAtBest: true, HasCoatsAtWorst: true } when primer.CoatsAtBest != primer.CoatsAtWorst =>
                $" (from {primer.CoatsAtBest} to {primer.CoatsAtWorst}, for what is known of the paint)",
            { HasCoatsAtBest: true, HasCoatsAtWorst: false } => $" (at best {primer.CoatsAtBest}, at worst not within 100)",
            _ => "",
        };
        return primer.HasCoats ? $"hidden after {Phrases.Count(primer.Coats, "coat")}{range}" : $"not hidden within 100 coats{range}";
    }
}
