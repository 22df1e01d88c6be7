using System.CommandLine;
using MixEngine.Cli.Connection;

namespace MixEngine.Cli.Commands;

/// <summary>The file in which this user's own service keeps everything: copied, checked, put back. The service's program does it, whether a service runs or not.</summary>
internal static class DataCommand
{
    private static readonly Argument<string> File = new("file") { Description = "The backup's file" };

    private static readonly Option<string> Data = new("--data") { Description = "The folder of the shelves [default: yours]", HelpName = "DIR" };

    public static Command Create()
    {
        var backup = new Command("backup", "Copy everything you entered into one file, which must be new; the service may go on meanwhile") { File, Data };
        backup.SetAction((parsed, cancel) => RunAsync(parsed, cancel, "backup", Path.GetFullPath(parsed.GetValue(File)!)));
        var check = new Command("check", "Read everything that is kept, and name what is damaged; exit code 2: something is") { Data };
        check.SetAction((parsed, cancel) => RunAsync(parsed, cancel, "check"));
        var restore = new Command("restore", "Put a backup in the place of what you have, which is kept beside it") { File, Data };
        restore.SetAction(RestoreAsync);
        return new Command("data", "A copy of everything you entered, a look through it, and a copy put back") { backup, check, restore };
    }

    private static async Task<int> RestoreAsync(ParseResult parsed, CancellationToken cancel)
    {
        // Nobody starts a service meanwhile.
        string socket = ServicePlace.OfThisUser().Socket;
        OwnFolder.Create(Path.GetDirectoryName(socket)!);
        using StartTurn turn = await SocketTakeover.TakeAsync(socket, cancel);
        return await RunAsync(parsed, cancel, "restore", Path.GetFullPath(parsed.GetValue(File)!), "--socket", socket);
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

        string data = parsed.GetValue(Data) is { } folder ? Path.GetFullPath(folder) : ServicePlace.OfThisUser().Data;
        return await ServiceProgram.RunAsync(["data", .. words, "--data", data], cancel);
    }
}
