using System.CommandLine;
using MixEngine.Cli.Pages;
using MixEngine.Cli.Tables;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>The paints someone owns.</summary>
internal static class ShelfCommand
{
    private static readonly Argument<string[]> Paint = Words.Of("paint", "Its name, or any beginning of it that only one paint has");

    private static readonly Option<bool> Shelves = new("--shelves") { Description = "The shelves there are, instead of the paints of one" };

    public static Command Create() => new("shelf", "The paints you own: import, list, show, remove, export")
    {
        ShelfImportCommand.Create(),
        List(),
        Show(),
        Remove(),
        ShelfExportCommand.Create(),
    };

    private static Command List()
    {
        var command = new Command("list", "The paints of the shelf") { Shelves };
        command.SetAction((parsed, cancel) => parsed.GetValue(Shelves)
            ? parsed.AnswerAsync(
                (service, options) => service.Shelves.ListShelvesAsync(new ListShelvesRequest(), options),
                new Form<ListShelvesResponse>(ShelfPage.Write, ShelfTable.Of),
                cancel)
            : parsed.AnswerAsync(
                (service, options) => service.Shelves.ListPaintsAsync(
                    new ListPaintsRequest { Shelf = CommonOptions.ShelfOf(parsed), View = CommonOptions.ViewOf(parsed) }, options),
                new Form<ListPaintsResponse>(ShelfPage.Write, ShelfTable.Of),
                cancel));
        return command;
    }

    private static Command Show()
    {
        var command = new Command("show", "One paint, its evidence and how sure its colour is; its curves with --json or --csv") { Paint };
        command.SetAction((parsed, cancel) => parsed.AnswerAsync(
            (service, options) => service.Shelves.GetPaintAsync(
                new GetPaintRequest { Shelf = CommonOptions.ShelfOf(parsed), Paint = parsed.Text(Paint), View = CommonOptions.ViewOf(parsed) }, options),
            new Form<GetPaintResponse>(ShelfPage.Write, ShelfTable.Of),
            cancel));
        return command;
    }

    private static Command Remove()
    {
        var command = new Command("remove", "Take one paint off the shelf") { Paint };
        command.SetAction((parsed, cancel) => parsed.AnswerAsync(
            (service, options) => service.Shelves.RemovePaintAsync(
                new RemovePaintRequest { Shelf = CommonOptions.ShelfOf(parsed), Paint = parsed.Text(Paint) }, options),
            new Form<RemovePaintResponse>((page, answer) => ShelfPage.Write(page, answer, CommonOptions.ShelfOf(parsed)), ShelfTable.Of),
            cancel));
        return command;
    }
}
