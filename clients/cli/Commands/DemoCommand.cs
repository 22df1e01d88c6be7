using System.CommandLine;
using Google.Protobuf;
using MixEngine.Cli.Connection;
using MixEngine.Cli.Demo;
using MixEngine.Cli.Terminal;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>A short story on an invented shelf, whose five questions are really asked.</summary>
internal static class DemoCommand
{
    private const string Shelf = "demo";
    private const string Boat = "demo-boat";
    private const string ShelfFile = "coast.csv";
    private const string BoatFile = "boat.csv";
    private const string SchemeFile = "tide-folk.toml";

    public static Command Create()
    {
        var command = new Command("demo", "A story on an invented shelf: the five questions, asked and answered; --csv prints the shelf as a table to begin with");
        command.SetAction(TellAsync);
        return command;
    }

    private static async Task<int> TellAsync(ParseResult parsed, CancellationToken cancel)
    {
        byte[] table = Read(ShelfFile);
        if (parsed.GetValue(CommonOptions.Csv))
        {
            using Stream output = Console.OpenStandardOutput();
            output.Write(table);
            return ExitCode.Answered;
        }
        if (parsed.GetValue(CommonOptions.Json))
        {
            throw new Refusal("--json: a story has no JSON. Ask one of its questions with --shelf demo --json instead, or demo --csv for its paints.");
        }

        var page = new Page(Console.Out, Palette.OfStandardOutput);
        page.Line(Story.Title);
        Tell(page, Story.Beginning);
        await PutOnShelfAsync(parsed, Shelf, ShelfFile, page, cancel);
        await PutOnShelfAsync(parsed, Boat, BoatFile, page, cancel);

        // Each question is the very command that a reader can type.
        string[] elsewhere = parsed.GetValue(CommonOptions.Server) is { } server ? ["--server", server] : [];
        foreach (StoryPage chapter in Story.Pages)
        {
            Tell(page, chapter.Tale);
            page.Line();
            string[] command = [.. chapter.Command, "--shelf", Shelf];
            page.Line("$ mixengine " + string.Join(' ', command.Select(ShellWord.Of)));
            page.Line();
            int exitCode = await CommandLine.RunAsync([.. command, .. elsewhere], cancel);
            if (exitCode is not (ExitCode.Answered or ExitCode.CannotBeReached))
            {
                return exitCode;
            }
            Tell(page, [chapter.Moral]);
        }

        int army = await PaintTheArmyAsync(page, elsewhere, cancel);
        if (army is not (ExitCode.Answered or ExitCode.CannotBeReached))
        {
            return army;
        }

        Tell(page, Story.Caution);
        page.Line();
        page.Line("NOW YOU");
        foreach ((string why, string command) in Story.TryNext)
        {
            page.Line();
            page.Line("  " + why);
            page.Line("    " + command);
        }
        return ExitCode.Answered;
    }

    // The whole force: its scheme and its cards go where the user's own data is, and the story says where that is.
    private static async Task<int> PaintTheArmyAsync(Page page, string[] elsewhere, CancellationToken cancel)
    {
        Tell(page, Story.Army);
        string folder = Path.Combine(ServicePlace.OfThisUser().Data, "demo");
        string scheme = Path.Combine(folder, SchemeFile);
        try
        {
            Directory.CreateDirectory(folder);
            File.WriteAllBytes(scheme, Read(SchemeFile));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new Refusal($"{scheme} cannot be written: {e.Message} Name another folder for your data in the environment variable MIXENGINE_HOME.");
        }
        string[] command = ["scheme", "run", scheme, "--out", Path.Combine(folder, "cards")];
        page.Line();
        page.Line("$ mixengine " + string.Join(' ', command.Select(ShellWord.Of)));
        page.Line();
        return await CommandLine.RunAsync([.. command, .. elsewhere], cancel);
    }

    private static async Task PutOnShelfAsync(ParseResult parsed, string name, string file, Page page, CancellationToken cancel)
    {
        using ServiceConnection service = Answering.Connect(parsed, cancel);
        var request = new ImportShelfRequest { Shelf = name, FileName = file, Content = ByteString.CopyFrom(Read(file)) };
        ImportShelfResponse shelf = await service.AskAsync(options => service.Shelves.ImportShelfAsync(request, options));
        page.Line();
        page.Line($"({shelf.Added.Count + shelf.Changed.Count + shelf.Unchanged.Count} invented paints are now on the shelf \"{name}\"; your own shelf is untouched.)");
    }

    private static void Tell(Page page, IEnumerable<string> paragraphs)
    {
        foreach (string paragraph in paragraphs)
        {
            page.Line();
            page.Prose(paragraph);
        }
    }

    private static byte[] Read(string file)
    {
        using Stream resource = typeof(DemoCommand).Assembly.GetManifestResourceStream(file)!;
        using var bytes = new MemoryStream();
        resource.CopyTo(bytes);
        return bytes.ToArray();
    }
}
