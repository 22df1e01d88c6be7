using System.CommandLine;
using MixEngine.Cli.Pages;
using MixEngine.Cli.Tables;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>How do I reach this colour?</summary>
internal static class MatchCommand
{
    private static readonly Argument<string[]> Target = Words.Of("colour", "\"#5a6b3c\", 5a6b3c or lab:40,-12,20 (in a shell a bare # begins a comment: quote it, or leave it out)");

    private static readonly Option<int?> Paints = OptionOf.Whole("--paints", "N", "Most paints in the recipe, 1 to 3 [default: 3]", least: 1, example: "3");

    private static readonly Option<int?> Drops = OptionOf.Whole("--drops", "N", "Most drops in the recipe [default: 6]", least: 1, example: "6");

    public static Command Create()
    {
        var command = new Command("match", "The best recipe of the shelf for a colour") { Target, Paints, Drops };
        command.SetAction((parsed, cancel) => parsed.AnswerAsync(
            (service, options) => service.Mixing.MatchAsync(Request(parsed), options),
            new Form<MatchResponse>(MatchPage.Write, MatchTable.Of)
            {
                ExitCode = answer => answer.HasReached && !answer.Reached ? ExitCode.CannotBeReached : ExitCode.Answered,
            },
            cancel));
        return command;
    }

    private static MatchRequest Request(ParseResult parsed) => new()
    {
        Shelf = CommonOptions.ShelfOf(parsed),
        View = CommonOptions.ViewOf(parsed),
        Target = new ColorInput { Text = parsed.Text(Target) },
        Paints = parsed.GetValue(Paints) ?? 0,
        Drops = parsed.GetValue(Drops) ?? 0,
    };
}
