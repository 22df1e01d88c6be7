using System.CommandLine;
using System.CommandLine.Invocation;
using System.CommandLine.Parsing;
using System.Globalization;
using System.Net;

namespace MixEngine.Service.Options;

/// <summary>The service's command line.</summary>
public sealed class CommandLine
{
    // Signals are the host's own business, and so are faults.
    private static readonly InvocationConfiguration Plain = new() { ProcessTerminationTimeout = null, EnableDefaultExceptionHandler = false };

    private readonly Option<string?> _socket = Of("--socket", "PATH", FullPath, "File of the Unix domain socket on which to answer gRPC.");
    private readonly Option<string?> _data = Of("--data", "DIR", FullPath, "Folder in which to keep the database mixengine.db.");
    private readonly Option<string?> _database = Of<string?>("--database", "SETTINGS", argument => argument.Tokens[0].Value,
        "Database of PostgreSQL instead of that file, such as 'Host=db.example;Database=mixengine;Username=mixengine'. A password belongs into MIXENGINE_DATABASE, which is read where this is not given, or into a file named by Passfile=.");
    private readonly Option<double> _idleMinutes = Of("--idle-minutes", "N", Minutes, "End after so many minutes without a request; 0: never.");
    private readonly Option<IPEndPoint?> _grpc = Of("--grpc", "127.0.0.1:PORT", Address, "Also answer gRPC (HTTP/2) on this address of this machine.");
    private readonly Option<IPEndPoint?> _http = Of("--http", "127.0.0.1:PORT", Address, "Also answer JSON (HTTP/1.1) on this address of this machine.");
    private readonly Option<IPEndPoint?> _https = Of("--https", "127.0.0.1:PORT", Address, "Also answer JSON over HTTPS on this address of this machine: for the add-in in Excel.");
    private readonly Option<string?> _certificate = Of("--certificate", "FILE", FullPath, "PEM file of the certificate for --https.");
    private readonly Option<string?> _key = Of("--key", "FILE", FullPath, "PEM file of its private key.");
    private readonly Option<string?> _excel = Of("--excel", "DIR", FullPath, "Folder of the built add-in for Excel, served over HTTPS under /excel.");

    private readonly Func<string, string?> _environment;
    private readonly RootCommand _command;

    /// <param name="environment">Gives the value of an environment variable, null where it is not set.</param>
    /// <param name="run">Gets options without faults, and returns the exit code.</param>
    public CommandLine(Func<string, string?> environment, Func<ServiceOptions, Task<int>> run)
    {
        _environment = environment;
        _command = new RootCommand("The MixEngine service: mixes, ramps, matches, glazes and covers with the paints on a shelf.")
        {
            _socket, _data, _database, _idleMinutes, _grpc, _http, _https, _certificate, _key, _excel,
        };
        _command.SetAction((parsed, _) => run(OptionsOf(parsed)));
    }

    /// <summary>Runs, or tells every fault of the arguments at once.</summary>
    /// <returns>The exit code: 1 for faulty arguments.</returns>
    public async Task<int> InvokeAsync(IReadOnlyList<string> arguments, TextWriter errors)
    {
        var parsed = _command.Parse(arguments);
        if (parsed.Action is not (ParseErrorAction or AsynchronousCommandLineAction))
        {
            return await parsed.InvokeAsync(Plain);
        }

        IReadOnlyList<string> faults = [.. parsed.Errors.Select(error => error.Message), .. OptionsOf(parsed).Faults()];
        if (faults.Count == 0)
        {
            return await parsed.InvokeAsync(Plain);
        }

        foreach (var fault in faults)
        {
            await errors.WriteLineAsync(fault);
        }

        return ExitCodes.Refused;
    }

    private ServiceOptions OptionsOf(ParseResult parsed)
    {
        var data = ValueOf(parsed, _data) ?? Path.GetFullPath(DefaultPaths.DataDirectory(_environment));
        var socket = ValueOf(parsed, _socket) ?? Path.GetFullPath(DefaultPaths.Socket(_environment, data));
        return new ServiceOptions(new SocketOptions { Path = socket }, new DataOptions { Directory = data, Postgres = ValueOf(parsed, _database) ?? DefaultPaths.Database(_environment) })
        {
            Idle = new IdleOptions { Minutes = ValueOf(parsed, _idleMinutes) },
            Listen = new ListenOptions { Grpc = ValueOf(parsed, _grpc), Http = ValueOf(parsed, _http) },
            Excel = new ExcelOptions
            {
                Https = ValueOf(parsed, _https),
                Certificate = ValueOf(parsed, _certificate),
                Key = ValueOf(parsed, _key),
                Folder = ValueOf(parsed, _excel),
            },
        };
    }

    private static Option<T> Of<T>(string name, string helpName, Func<ArgumentResult, T> read, string description) =>
        new(name) { HelpName = helpName, CustomParser = read, Description = description };

    // What could not be read has its own fault already, and counts as not given.
    private static T? ValueOf<T>(ParseResult parsed, Option<T> option) =>
        parsed.GetResult(option) is { } result && !result.Errors.Any() ? result.GetValueOrDefault<T>() : default;

    private static string? FullPath(ArgumentResult argument)
    {
        var text = argument.Tokens[0].Value;
        if (!string.IsNullOrWhiteSpace(text))
        {
            return Path.GetFullPath(text);
        }

        argument.AddError($"{NameOf(argument)}: the path is empty; name one, or leave the option out.");
        return null;
    }

    private static double Minutes(ArgumentResult argument)
    {
        var text = argument.Tokens[0].Value;
        if (!double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var minutes))
        {
            argument.AddError($"{NameOf(argument)}: '{text}' is not a number; give minutes, such as 10, or 0 for never.");
        }

        return minutes;
    }

    private static IPEndPoint? Address(ArgumentResult argument)
    {
        // A port must be written: the parser would take its absence for port 0.
        var text = argument.Tokens[0].Value;
        if (IPEndPoint.TryParse(text, out var address) && text.EndsWith($":{address.Port}", StringComparison.Ordinal))
        {
            return address;
        }

        argument.AddError($"{NameOf(argument)}: '{text}' is not an address and a port, such as 127.0.0.1:5180.");
        return null;
    }

    private static string NameOf(ArgumentResult argument) => ((OptionResult)argument.Parent!).Option.Name;
}
