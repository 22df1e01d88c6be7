using System.CommandLine;
using MixEngine.Cli.Pages;
using MixEngine.Cli.Tables;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>What do I get?</summary>
internal static class PredictCommand
{
    private static readonly Argument<string[]> Recipe = Words.Of("recipe", "\"2 tarred rope + 1 kelp\", \"2:1 tarred rope : kelp\", or one paint");

    public static Command Create()
    {
        var command = new Command("predict", "The dried colour of a mix, and how sure it is") { Recipe };
        command.SetAction((parsed, cancel) => parsed.AnswerAsync(
            (service, options) => service.Mixing.PredictAsync(Request(parsed), options),
            new Form<PredictResponse>(PredictPage.Write, PredictTable.Of),
            cancel));
        return command;
    }

    private static PredictRequest Request(ParseResult parsed) => new()
    {
        Shelf = CommonOptions.ShelfOf(parsed),
        View = CommonOptions.ViewOf(parsed),
        Recipe = new RecipeInput { Text = parsed.Text(Recipe) },
    };
}
