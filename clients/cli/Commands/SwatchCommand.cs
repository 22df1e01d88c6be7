using System.CommandLine;
using MixEngine.Cli.Connection;
using MixEngine.Cli.Pages;
using MixEngine.Cli.Tables;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>What was painted and measured, from which the engine learns.</summary>
internal static class SwatchCommand
{
    private static readonly Option<string> Of = new("--of") { Description = "Only those in which this paint takes part", HelpName = "PAINT" };

    private static readonly Option<bool> Suspects = new("--suspects") { Description = "The likeliest mislabelled first" };

    private static readonly Argument<string> Id = new("id") { Description = "The swatch's id, as swatch list shows it" };

    public static Command Create() => new("swatch", "What you painted and measured, from which the engine learns: add, list, correct, remove, import, export")
    {
        SwatchAddCommand.Create(),
        SwatchAddCommand.CreateCorrect(),
        List(),
        Remove(),
        SwatchImportCommand.Create(),
        SwatchExportCommand.Create(),
    };

    private static Command List()
    {
        var command = new Command("list", "The swatches, and how well each agrees with all the others") { Of, Suspects };
        command.SetAction(async (parsed, cancel) =>
        {
            using ServiceConnection service = Answering.Connect(parsed, cancel);
            var request = new ListSwatchesRequest
            {
                Shelf = CommonOptions.ShelfOf(parsed),
                Paint = parsed.GetValue(Of) ?? "",
                SuspectsFirst = parsed.GetValue(Suspects),
                PageSize = 1000,
            };
            Answering.Write(parsed, new Form<ListSwatchesResponse>((page, answer) => SwatchPage.Write(page, answer, request.Shelf), SwatchTable.Of), await AllPagesAsync(service, request));
            return ExitCode.Answered;
        });
        return command;
    }

    private static async Task<ListSwatchesResponse> AllPagesAsync(ServiceConnection service, ListSwatchesRequest request)
    {
        ListSwatchesResponse all = await service.AskAsync(options => service.Swatches.ListSwatchesAsync(request, options));
        while (all.NextPageToken.Length > 0)
        {
            request.PageToken = all.NextPageToken;
            ListSwatchesResponse next = await service.AskAsync(options => service.Swatches.ListSwatchesAsync(request, options));
            all.Swatches.Add(next.Swatches);
            all.NextPageToken = next.NextPageToken;
        }
        return all;
    }

    private static Command Remove()
    {
        var command = new Command("remove", "Forget one swatch") { Id };
        command.SetAction((parsed, cancel) => parsed.AnswerAsync(
            (service, options) => service.Swatches.RemoveSwatchAsync(new RemoveSwatchRequest { Shelf = CommonOptions.ShelfOf(parsed), Id = parsed.GetValue(Id) }, options),
            new Form<RemoveSwatchResponse>(SwatchPage.Write, SwatchTable.Of),
            cancel));
        return command;
    }
}
