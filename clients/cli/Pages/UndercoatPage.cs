using MixEngine.Cli.Terminal;
using MixEngine.V1;

namespace MixEngine.Cli.Pages;

internal static class UndercoatPage
{
    public static void Write(Page page, UndercoatResponse answer)
    {
        page.Line(answer.Recipe.Text);
        page.Line(answer.BestPrimer.Length > 0 ? $"  Best over {answer.BestPrimer}." : "  No primer is hidden within 100 coats.");
        foreach (PrimerPlan plan in answer.Primers)
        {
            page.Line();
            page.Line($"Over {plan.Primer}: {(plan.HasCoats ? Phrases.Count(plan.Coats, "coat") : "not within 100 coats")}");
            if (plan.Undercoat is { } undercoat)
            {
                page.Beside("  ", undercoat.Color.Hex,
                    $"{Phrases.Count(undercoat.Coats, "coat")} of {undercoat.Paint} beneath, then {undercoat.CoatsAbove}: {undercoat.Coats + undercoat.CoatsAbove} in all",
                    $"{undercoat.Color.Words}   {Phrases.Numbers(undercoat.Color)}");
            }
            else
            {
                page.Line("  No undercoat of the shelf saves a coat.");
            }
        }
    }
}
