using MixEngine.Cli.Tables;
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
        page.Line(isReached ? "Mix: no eye sees the difference"
            : !answer.HasProven || answer.Proven ? "Cannot be reached; the best of the nearest"
            : "Not reached so far; the nearest that was found");
        Write(page, answer.Matches[0], 2);
        if (!isReached && answer.Reason.Length > 0)
        {
            page.Prose(answer.Reason, 7, "  Why: ");
        }
        if (answer.Wanted is { } wanted)
        {
            page.Prose($"{wanted.Words} About {Phrases.Numbers(wanted.Color)}; {Numerals.Difference(wanted.DeltaE00)} away with it.", 12, "  Opens it: ");
        }
        page.Remarks(answer.Remarks);

        if (answer.Matches.Count > 1)
        {
            page.Line();
            page.Line("Or");
            foreach (Match other in answer.Matches.Skip(1).Take(MostOthers))
            {
                page.Beside("  ", other.Color.Hex, $"{(Addition(other) is null ? "" : $"add {(other.Added.Count > 0 ? Cells.Of(other.Added) : "nothing")}: ")}{other.Recipe.Text}, {Distance(other)}", $"{other.Color.Words}   {Phrases.Numbers(other.Color)}", Robustness(other));
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
        if (Addition(match) is { } addition)
        {
            page.Line(new string(' ', indent) + addition);
        }
        page.Beside(new string(' ', indent), match.Color.Hex,
            $"{match.Recipe.Text}, {Distance(match)}",
            match.Color.Words,
            Phrases.Numbers(match.Color),
            Phrases.Doubt(match.ExpectedError));
        if (match.WorstLight is { } worst)
        {
            page.Line($"{new string(' ', indent)}farthest under {worst.Light}, {Numerals.Difference(worst.DeltaE00)} away");
        }
        if (match.Lights.Count > 1)
        {
            page.Line($"{new string(' ', indent)}{string.Join(", ", match.Lights.Select(light => $"{light.Light} {Numerals.Difference(light.DeltaE00)} away"))}");
        }
        page.Remarks(match.Remarks, indent);
    }

    /// <summary>"± 8.0, farthest under FL11 (33.1), one drop of gull white too many: visibly lighter".</summary>
    private static string Robustness(Match match) => string.Join(", ", new[]
    {
        Phrases.PlusMinus(match.ExpectedError),
        match.WorstLight is { } worst ? $"farthest under {worst.Light} ({Numerals.Difference(worst.DeltaE00)})" : "",
        match.DropTooMany?.Words ?? "",
    }.Where(words => words.Length > 0));

    /// <summary>What is to be added to what was on the palette; null where there was nothing.</summary>
    private static string? Addition(Match match) =>
        match.Added.Count == 0 ? "Add nothing: it is best as it is."
        : match.Added.Sum(part => part.Parts) < match.Recipe.Parts.Sum(part => part.Parts) - 1e-9 ? $"Add {Cells.Of(match.Added)}; together:"
        : null;

    private static string Distance(Match match) => $"{Numerals.Difference(match.DeltaE00)} away";
}
