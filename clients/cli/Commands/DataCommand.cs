using System.CommandLine;
using MixEngine.Cli.Connection;

namespace MixEngine.Cli.Commands;

/// <summary>The file in which this user's own service keeps everything: copied, checked, put back. The service's program does it, whether a service runs or not.</summary>
internal static class DataCommand
{
    private static readonly Argument<string> File = new("file") { Description = "The backup's file" };

    private static readonly Option<string> Data = new("--data") { Description = "The folder of the shelves [default: yours]", HelpName = "DIR" };

    private static readonly Option<string> Config = new("--config") { Description = "The service's own TOML file, which says where its data lies", HelpName = "FILE" };

    private static readonly Option<bool> DryRun = new("--dry-run") { Description = "Only see whether that file could be put back" };

    public static Command Create()
    {
        var backup = new Command("backup", "Copy everything you entered into one file, which must be new; the service may go on meanwhile") { File };
        backup.SetAction((parsed, cancel) => RunAsync(parsed, cancel, "backup", FileOf(parsed)));
        var check = new Command("check", "Read everything that is kept, and name what is damaged; exit code 2: something is");
        check.SetAction((parsed, cancel) => RunAsync(parsed, cancel, "check"));
        var restore = new Command("restore", "Put a backup in the place of what you have, which is kept beside it") { File, DryRun };
        restore.SetAction(RestoreAsync);
        var command = new Command("data", "A copy of everything you entered, a look through it, and a copy put back") { backup, check, restore };
        foreach (Option<string> option in new[] { Data, Config })
        {
            option.Recursive = true;
            command.Options.Add(option);
        }
        return command;
    }

    private static async Task<int> RestoreAsync(ParseResult parsed, CancellationToken cancel)
    {
        // A file that will not do is no reason to end a service.
        int looked = await RunAsync(parsed, cancel, "restore", FileOf(parsed), DryRun.Name);
        if (looked != 0 || parsed.GetValue(DryRun))
        {
            return looked;
        }

        // The service in the background gives way, and none is started meanwhile. One that was told of another place is whoever's who started it.
        using StartTurn? turn = parsed.GetValue(Data) is null && parsed.GetValue(Config) is null ? await TakeOverAsync(cancel) : null;
        return await RunAsync(parsed, cancel, "restore", FileOf(parsed));
    }

    private static async Task<StartTurn> TakeOverAsync(CancellationToken cancel)
    {
        string socket = ServicePlace.OfThisUser().Socket;
        OwnFolder.Create(Path.GetDirectoryName(socket)!);
        return await SocketTakeover.TakeAsync(socket, cancel);
    }

    private static async Task<int> RunAsync(ParseResult parsed, CancellationToken cancel, params string[] words)
    {
        if (parsed.GetValue(CommonOptions.Server) is not null)
        {
            throw new Refusal("--server: this is about the file of your own local service. Where another service keeps its data, ask whoever runs it.");
        }
        if (parsed.GetValue(CommonOptions.Json) || parsed.GetValue(CommonOptions.Csv))
        {
            throw new Refusal("--json and --csv: this answer has no such form; its exit code tells a script how it went.");
        }

        return await ServiceProgram.RunAsync(["data", .. words, .. Said(parsed, Data), .. Said(parsed, Config)], cancel);
    }

    private static string FileOf(ParseResult parsed) => Path.GetFullPath(parsed.GetValue(File)!);

    private static string[] Said(ParseResult parsed, Option<string> option) => parsed.GetValue(option) is { } value ? [option.Name, value] : [];
}
