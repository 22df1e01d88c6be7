using System.CommandLine;
using MixEngine.Cli.Pages;
using MixEngine.Cli.Tables;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>Reads a file of swatches.</summary>
internal static class SwatchImportCommand
{
    private static readonly Argument<string> File = new("file") { Description = "The swatches: CSV (wide or long), CGATS, CxF or xlsx; - for standard input" };

    private static readonly Option<bool> DryRun = new("--dry-run") { Description = "Say what would change, and change nothing" };

    private static readonly Option<string> Scale = new("--scale") { Description = "Reflectances are percent or fraction [default: as the file declares, or decided once for all of it]", HelpName = "WORD" };

    public static Command Create()
    {
        var command = new Command("import", "Read a file of swatches: all of it, or nothing and every fault found") { File, DryRun, Scale };
        command.SetAction((parsed, cancel) =>
        {
            string path = parsed.GetValue(File)!;
            var request = new ImportSwatchesRequest
            {
                Shelf = CommonOptions.ShelfOf(parsed),
                FileName = ShelfImportCommand.NameOf(path),
                Content = ShelfImportCommand.ContentOf(path, "table of swatches", "my-swatches.csv"),
                DryRun = parsed.GetValue(DryRun),
                Scale = parsed.GetValue(Scale) ?? "",
            };
            return parsed.AnswerAsync(
                (service, options) => service.Swatches.ImportSwatchesAsync(request, options),
                new Form<ImportSwatchesResponse>(SwatchPage.Write, SwatchTable.Of),
                cancel);
        });
        return command;
    }
}
