using MixEngine.Cli.Terminal;
using MixEngine.V1;

namespace MixEngine.Cli.Pages;

internal static class PredictPage
{
    public static void Write(Page page, PredictResponse answer)
    {
        page.Line(answer.Recipe.Text);
        page.Beside("  ", answer.Color.Hex,
            $"dries {answer.Color.Words}",
            Phrases.Numbers(answer.Color),
            Phrases.Doubt(answer.ExpectedError));
        page.Remarks(answer.Remarks);
        page.Line();
        page.Line($"  Under {Phrases.Conditions(answer.Color)}; differences are CIEDE2000.");
    }
}
