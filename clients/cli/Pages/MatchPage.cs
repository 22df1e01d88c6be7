using MixEngine.Cli.Terminal;
using MixEngine.V1;

namespace MixEngine.Cli.Pages;

internal static class MatchPage
{
    /// <summary>As many as one looks through: all of them are in --json and --csv.</summary>
    private const int MostOthers = 3;

    public static void Write(Page page, MatchResponse answer)
    {
        page.Line("Wanted");
        page.Beside("  ", answer.Target.Hex, answer.Target.Words, Phrases.Numbers(answer.Target));
        page.Line();
        if (answer.Matches.Count == 0)
        {
            page.Prose($"Nothing on the shelf comes near. {answer.Reason}");
            return;
        }

        bool isReached = !answer.HasReached || answer.Reached;
        page.Line(isReached ? "Mix: no eye sees the difference" : "Cannot be reached; the best of the nearest");
        Write(page, answer.Matches[0], 2);
        if (!isReached && answer.Reason.Length > 0)
        {
            page.Prose(answer.Reason, 7, "  Why: ");
        }
        page.Remarks(answer.Remarks);

        if (answer.Matches.Count > 1)
        {
            page.Line();
            page.Line("Or");
            foreach (Match other in answer.Matches.Skip(1).Take(MostOthers))
            {
                page.Beside("  ", other.Color.Hex, $"{other.Recipe.Text}, {Distance(other)}", $"{other.Color.Words}   {Phrases.Numbers(other.Color)}");
            }
        }

        page.Line();
        if (answer.Undivided is { } undivided)
        {
            page.Prose($"With less than a drop: {Phrases.Shares(undivided.Recipe)}, {Distance(undivided)}.", 2);
        }
        if (answer.HasProven)
        {
            page.Line(answer.Proven ? "  Every mix of this size on the shelf was weighed: none is better." : "  Not every mix of the shelf was weighed: a better one may exist.");
        }
        page.Line($"  Under {Phrases.Conditions(answer.Target)}; differences are CIEDE2000.");
    }

    private static void Write(Page page, Match match, int indent)
    {
        page.Beside(new string(' ', indent), match.Color.Hex,
            $"{match.Recipe.Text}, {Distance(match)}",
            match.Color.Words,
            Phrases.Numbers(match.Color),
            Phrases.Doubt(match.ExpectedError));
        page.Remarks(match.Remarks, indent);
    }

    private static string Distance(Match match) => $"{Numerals.Difference(match.DeltaE00)} away";
}
