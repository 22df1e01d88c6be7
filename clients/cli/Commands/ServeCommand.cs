using System.CommandLine;
using System.Diagnostics;
using MixEngine.Cli.Connection;
using MixEngine.Cli.Terminal;

namespace MixEngine.Cli.Commands;

/// <summary>The service in the foreground, for other programs to ask.</summary>
internal static class ServeCommand
{
    private static readonly Option<string> Socket = new("--socket") { Description = "The Unix domain socket to listen on [default: where mixengine looks for it]", HelpName = "PATH" };

    private static readonly Option<string> Data = new("--data") { Description = "The folder of the shelves [default: yours]", HelpName = "DIR" };

    private static readonly Option<string> Database = new("--database") { Description = "A database of PostgreSQL instead; its password belongs into MIXENGINE_DATABASE or a file named by Passfile=", HelpName = "SETTINGS" };

    private static readonly Option<string> IdleMinutes = new("--idle-minutes") { Description = "End after so many minutes without a question; 0: never [default: 0]", HelpName = "N" };

    private static readonly Option<string> Grpc = new("--grpc") { Description = "Also listen there for gRPC (HTTP/2)", HelpName = "127.0.0.1:PORT" };

    private static readonly Option<string> Http = new("--http") { Description = "Also listen there for HTTP/JSON (HTTP/1.1): curl, scripts, spreadsheets", HelpName = "127.0.0.1:PORT" };

    private static readonly Option<string> Https = new("--https") { Description = "Also listen there for gRPC and JSON, encrypted: other machines, Excel's add-in", HelpName = "127.0.0.1:PORT" };

    private static readonly Option<string> Certificate = new("--certificate") { Description = "PEM file of the certificate for --https", HelpName = "FILE" };

    private static readonly Option<string> CertificateKey = new("--certificate-key") { Description = "PEM file of its private key", HelpName = "FILE" };

    private static readonly Option<string> Excel = new("--excel") { Description = "Folder of the built add-in for Excel, served over HTTPS under /excel", HelpName = "DIR" };

    private static readonly Option<string> Config = new("--config") { Description = "Read further settings of the service from this TOML file; the socket is the one named here", HelpName = "FILE" };

    private static readonly Option<string> DeadlineSeconds = new("--deadline-seconds") { Description = "Longest answer to a caller who sets no deadline [default: 60]", HelpName = "N" };

    private static readonly Option<string> DrainSeconds = new("--drain-seconds") { Description = "When asked to end, finish what is under way for so long [default: 10]", HelpName = "N" };

    private static readonly Option<string> Log = new("--log") { Description = "Form of the log: text or json [default: text on a terminal]", HelpName = "text|json" };

    private static readonly Option<string> Otlp = new("--otlp") { Description = "Send traces and metrics to this OpenTelemetry collector", HelpName = "http://HOST:4317" };

    private static readonly Option<string> CallsPerSecond = new("--calls-per-second") { Description = "How often each access key may ask; 0: as often as it likes [default: 50]", HelpName = "N" };

    private static readonly Option<bool> RequireKey = new("--require-key") { Description = "Ask callers on this machine's own ports for an access key too" };

    // What the service takes by the same name.
    private static readonly Option<string>[] HandedOn = [Data, Database, IdleMinutes, Grpc, Http, Https, Certificate, CertificateKey, Excel, Config, DeadlineSeconds, DrainSeconds, Log, Otlp, CallsPerSecond];

    public static Command Create()
    {
        var command = new Command("serve", "Run the service in the foreground, for curl and other programs; Ctrl-C ends it") { Socket, RequireKey };
        foreach (Option<string> option in HandedOn)
        {
            command.Options.Add(option);
        }
        command.SetAction(ServeAsync);
        return command;
    }

    private static async Task<int> ServeAsync(ParseResult parsed, CancellationToken cancel)
    {
        ServicePlace own = ServicePlace.OfThisUser();
        string socket = parsed.GetValue(Socket) is { } named ? ServicePlace.CheckedSocket(named) : own.Socket;
        string? grpc = parsed.GetValue(Grpc);
        string? http = parsed.GetValue(Http);

        OwnFolder.Create(Path.GetDirectoryName(socket)!);
        List<string> arguments = ["--socket", socket];
        foreach (Option<string> option in HandedOn)
        {
            arguments.AddRange(parsed.GetValue(option) is { } value ? [option.Name, value] : []);
        }

        arguments.AddRange(parsed.GetValue(RequireKey) ? [RequireKey.Name] : []);

        StartTurn turn = await SocketTakeover.TakeAsync(socket, cancel);
        using Process service = Start(ServiceProgram.Find(), arguments);

        // The terminal's Ctrl-C reaches the service as well; what reaches this command alone is handed on. Either way the service ends first.
        using CancellationTokenRegistration handOn = cancel.Register(() => End(service));

        bool listens = await ListensAsync(service, socket);
        turn.Dispose();
        if (listens)
        {
            Console.Out.WriteLine(Explanation(socket, PlaceOfData(parsed, own), grpc, http, parsed.GetValue(Https)));
        }
        await service.WaitForExitAsync(CancellationToken.None);
        return service.ExitCode == 0 || cancel.IsCancellationRequested ? ExitCode.Answered : ExitCode.NoService;
    }

    private static Process Start(ServiceProgram program, IEnumerable<string> arguments)
    {
        string[] command = [.. program.CommandLine, .. arguments];
        var start = new ProcessStartInfo(command[0], command[1..]) { UseShellExecute = false, RedirectStandardOutput = true };
        if (ServiceProgram.RuntimeFolder() is { } folder)
        {
            start.Environment["DOTNET_ROOT"] = folder;
        }
        try
        {
            // Its log goes beside the faults: standard output says how to call it, and nothing else.
            Process service = Process.Start(start)!;
            service.OutputDataReceived += (_, line) =>
            {
                if (line.Data is not null)
                {
                    Console.Error.WriteLine(line.Data);
                }
            };
            service.BeginOutputReadLine();
            return service;
        }
        catch (System.ComponentModel.Win32Exception e)
        {
            throw new NoService($"{program.Path} could not be started: {e.Message}", e);
        }
    }

    private static async Task<bool> ListensAsync(Process service, string socket)
    {
        while (!service.HasExited)
        {
            if (await LocalService.TryConnectAsync(socket, CancellationToken.None) is { } connection)
            {
                await connection.DisposeAsync();
                return true;
            }
            await Task.Delay(20);
        }
        return false;
    }

    private static void End(Process service)
    {
        if (service.HasExited)
        {
            return;
        }
        if (OperatingSystem.IsWindows())
        {
            service.Kill();
        }
        else
        {
            _ = PosixProcess.Signal(service.Id, PosixProcess.Terminate);
        }
    }

    private static string PlaceOfData(ParseResult parsed, ServicePlace own) =>
        parsed.GetValue(Database) is not null ? "the database that was named"
        : parsed.GetValue(Data) is { } folder ? Path.GetFullPath(folder)
        : parsed.GetValue(Config) is { } file ? $"{own.Data}, where {file} names no other place"
        : own.Data;

    private static string Explanation(string socket, string data, string? grpc, string? http, string? https)
    {
        const string Question = "-d '{\"shelf\": \"home\", \"recipe\": {\"text\": \"2 tarred rope + 1 kelp\"}}'";
        string jsonAddress = http is null ? $"--unix-socket {ShellWord.Of(socket)} --http2-prior-knowledge http://localhost" : $"http://{http}";
        List<string> lines =
        [
            $"Listening on  unix:{socket}  (gRPC, this user only)",
            grpc is null ? "" : $"              {grpc}  (gRPC over HTTP/2)",
            http is null ? "" : $"              http://{http}  (JSON over HTTP/1.1)",
            https is null ? "" : $"              https://{https}  (gRPC and JSON, encrypted)",
            $"Shelves in    {data}",
            "Ask it        " + (grpc is null ? $"mixengine predict \"2 tarred rope + 1 kelp\" --server {ShellWord.Of("unix:" + socket)}" : $"mixengine predict \"2 tarred rope + 1 kelp\" --server {grpc}"),
            $"or            curl {jsonAddress}/v1/shelves",
            $"              curl {jsonAddress}/v1/predict -H 'content-type: application/json' {Question}",
            "End it        Ctrl-C",
        ];
        return string.Join('\n', lines.Where(line => line.Length > 0));
    }
}
