using System.CommandLine;
using Google.Protobuf;
using MixEngine.Cli.Tables;
using MixEngine.Cli.Terminal;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>Writes the shelf as a table that import reads back identically.</summary>
internal static class ShelfExportCommand
{
    private static readonly Argument<string?> File = new("file")
    {
        Description = "Where to: its ending, .csv or .xlsx, is the format; none: CSV on standard output",
        Arity = ArgumentArity.ZeroOrOne,
    };

    public static Command Create()
    {
        var command = new Command("export", "The shelf as a table that import reads back identically") { File };
        command.SetAction((parsed, cancel) => ExportAsync(parsed, cancel));
        return command;
    }

    private static async Task<int> ExportAsync(ParseResult parsed, CancellationToken cancel)
    {
        string? path = parsed.GetValue(File);
        string shelf = CommonOptions.ShelfOf(parsed);
        string format = path is null ? "" : Path.GetExtension(path).TrimStart('.').ToLowerInvariant();
        using var service = Answering.Connect(parsed, cancel);
        ExportShelfResponse answer = await service.AskAsync(options =>
            service.Shelves.ExportShelfAsync(new ExportShelfRequest { Shelf = shelf, Format = format }, options));

        if (path is not null)
        {
            Save(path, answer.Content);
        }
        if (parsed.GetValue(CommonOptions.Json))
        {
            Answering.Write(parsed, new Form<ExportShelfResponse>((_, _) => { }, _ => new CsvTable()), answer);
        }
        else if (path is null)
        {
            using Stream output = Console.OpenStandardOutput();
            answer.Content.WriteTo(output);
        }
        else
        {
            new Page(Console.Out, Palette.OfStandardOutput).Line($"Shelf {shelf} is now also in {path}.");
        }
        return ExitCode.Answered;
    }

    public static void Save(string path, ByteString content)
    {
        try
        {
            using FileStream file = System.IO.File.Create(path);
            content.WriteTo(file);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new Refusal($"{path} cannot be written: {e.Message} Name a file in a folder that you may write to.");
        }
    }
}
