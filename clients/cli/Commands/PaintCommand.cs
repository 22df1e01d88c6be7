using System.CommandLine;
using MixEngine.Cli.Pages;
using MixEngine.Cli.Tables;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>What is known of one paint, and what would make it surer.</summary>
internal static class PaintCommand
{
    private static readonly Argument<string[]> Paint = Words.Of("paint", "Its name, or any beginning of it that only one paint has");

    private static readonly Option<int?> Count = OptionOf.Whole("--count", "N", "How many proposals, 1 to 10 [default: 3]", least: 1, example: "3");

    public static Command Create() => new("paint", "What is known of one paint, and what would make it surer: show, advise") { Show(), Advise() };

    private static Command Show()
    {
        var command = new Command("show", "One paint: its grade, its curves, the swatches it is known by and how well they fit") { Paint };
        command.SetAction((parsed, cancel) => parsed.AnswerAsync(
            (service, options) => service.Shelves.GetPaintAsync(
                new GetPaintRequest { Shelf = CommonOptions.ShelfOf(parsed), Paint = parsed.Text(Paint), View = CommonOptions.ViewOf(parsed) }, options),
            new Form<GetPaintResponse>(PaintPage.Write, ShelfTable.Of),
            cancel));
        return command;
    }

    private static Command Advise()
    {
        var command = new Command("advise", "Which single new swatch would make the paint's mixtures surest") { Paint, Count };
        command.SetAction((parsed, cancel) => parsed.AnswerAsync(
            (service, options) => service.Swatches.AdviseSwatchAsync(
                new AdviseSwatchRequest { Shelf = CommonOptions.ShelfOf(parsed), Paint = parsed.Text(Paint), Count = parsed.GetValue(Count) ?? 0 }, options),
            new Form<AdviseSwatchResponse>(PaintPage.Write, SwatchTable.Of),
            cancel));
        return command;
    }
}
