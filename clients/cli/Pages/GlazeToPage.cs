using MixEngine.Cli.Terminal;
using MixEngine.V1;

namespace MixEngine.Cli.Pages;

internal static class GlazeToPage
{
    public static void Write(Page page, GlazeToResponse answer)
    {
        page.Line("Wanted");
        page.Beside("  ", answer.Target.Hex, answer.Target.Words, Phrases.Numbers(answer.Target));
        page.Line();
        if (answer.Glazes.Count == 0)
        {
            page.Prose(answer.Reason);
            return;
        }

        page.Line(answer.Reached ? "Glaze" : "Cannot be reached; the nearest");
        Write(page, answer.Glazes[0]);
        if (!answer.Reached)
        {
            page.Prose(answer.Reason, 7, "  Why: ");
        }
        if (answer.Glazes.Count > 1)
        {
            page.Line();
            page.Line("Or");
            foreach (GlazeMatch other in answer.Glazes.Skip(1))
            {
                page.Line($"  {Phrases.Count(other.Coats, "coat")} of {other.Recipe.Text}, {Numerals.Difference(other.DeltaE00)} away");
            }
        }
        page.Line();
        page.Line($"  Under {Phrases.Conditions(answer.Target)}; differences and ± (nineteen times in twenty) are CIEDE2000.");
    }

    private static void Write(Page page, GlazeMatch glaze)
    {
        bool several = glaze.Layers.Count > 1;
        page.Line($"  {Phrases.Count(glaze.Coats, "coat")} of {glaze.Recipe.Text}, {Numerals.Difference(glaze.DeltaE00)} away{(several ? " on average, in hue and chroma" : "")}");
        for (int i = 0; i < glaze.Layers.Count; i++)
        {
            GlazedLayer layer = glaze.Layers[i];
            page.Beside(several ? $"  {i + 1,2} over  " : "  over   ", layer.Before.Hex, layer.Before.Words, Phrases.Numbers(layer.Before));
            string step = layer.HasStepDeltaE00 ? $", jump {Numerals.Difference(layer.StepDeltaE00)}" : "";
            page.Beside("     now  ", layer.After.Hex, $"{layer.After.Words}, {Phrases.PlusMinus(layer.ExpectedError)}{step}", Phrases.Numbers(layer.After));
        }
        page.Remarks(glaze.Remarks);
    }
}
