using System.CommandLine;
using MixEngine.Cli.Tables;
using MixEngine.Cli.Terminal;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>Writes the swatches as a file that import reads back identically.</summary>
internal static class SwatchExportCommand
{
    private static readonly Argument<string?> File = new("file")
    {
        Description = "Where to: its ending, .csv, .cgats, .cxf or .xlsx, is the format; none: CSV on standard output",
        Arity = ArgumentArity.ZeroOrOne,
    };

    private static readonly Option<string> Format = new("--format") { Description = "csv, csv-long, cgats, cxf or xlsx [default: by the file's ending]", HelpName = "WORD" };

    public static Command Create()
    {
        var command = new Command("export", "The swatches as a file that import reads back identically") { File, Format };
        command.SetAction((parsed, cancel) => ExportAsync(parsed, cancel));
        return command;
    }

    private static async Task<int> ExportAsync(ParseResult parsed, CancellationToken cancel)
    {
        string? path = parsed.GetValue(File);
        string shelf = CommonOptions.ShelfOf(parsed);
        string format = parsed.GetValue(Format) ?? Path.GetExtension(path ?? "").TrimStart('.').ToLowerInvariant();
        using var service = Answering.Connect(parsed, cancel);
        ExportSwatchesResponse answer = await service.AskAsync(options =>
            service.Swatches.ExportSwatchesAsync(new ExportSwatchesRequest { Shelf = shelf, Format = format }, options));

        if (path is not null)
        {
            ShelfExportCommand.Save(path, answer.Content);
        }
        if (parsed.GetValue(CommonOptions.Json))
        {
            Answering.Write(parsed, new Form<ExportSwatchesResponse>((_, _) => { }, _ => new CsvTable()), answer);
        }
        else if (path is null)
        {
            using Stream output = Console.OpenStandardOutput();
            answer.Content.WriteTo(output);
        }
        else
        {
            new Page(Console.Out, Palette.OfStandardOutput).Line($"The swatches of shelf {shelf} are now also in {path}.");
        }
        return ExitCode.Answered;
    }
}
