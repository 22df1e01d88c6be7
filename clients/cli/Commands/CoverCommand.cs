using System.CommandLine;
using MixEngine.Cli.Pages;
using MixEngine.Cli.Tables;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>Does it cover?</summary>
internal static class CoverCommand
{
    private static readonly Argument<string[]> Recipe = Words.Of("recipe", "The paint or the mix that is to hide the primer");

    private static readonly Option<string> Over = new("--over")
    {
        Description = "The primer: black, grey or white [default: each of them]",
        HelpName = "PRIMER",
    };

    public static Command Create()
    {
        var command = new Command("cover", "How many coats hide a primer") { Recipe, Over, GlazeCommand.Film, UndercoatQuestion.Asked };
        command.SetAction((parsed, cancel) => parsed.GetValue(UndercoatQuestion.Asked)
            ? UndercoatQuestion.AnswerAsync(parsed, Request(parsed), cancel)
            : parsed.AnswerAsync(
                (service, options) => service.Mixing.CoverAsync(Request(parsed), options),
                new Form<CoverResponse>(CoverPage.Write, CoverTable.Of)
                {
                    ExitCode = answer => answer.Primers.All(primer => primer.HasCoats) ? ExitCode.Answered : ExitCode.CannotBeReached,
                },
                cancel));
        return command;
    }

    private static CoverRequest Request(ParseResult parsed)
    {
        var request = new CoverRequest
        {
            Shelf = CommonOptions.ShelfOf(parsed),
            View = CommonOptions.ViewOf(parsed),
            Recipe = new RecipeInput { Text = parsed.Text(Recipe) },
            Over = parsed.GetValue(Over) ?? "",
        };
        if (parsed.GetValue(GlazeCommand.Film) is { } film)
        {
            request.FilmThicknessUm = film;
        }
        return request;
    }
}
