using System.CommandLine;
using System.CommandLine.Invocation;

namespace MixEngine.Service.Options;

/// <summary>The service's command line, and what stands behind it: environment and file.</summary>
public sealed class CommandLine
{
    // Signals are the host's own business, and so are faults.
    private static readonly InvocationConfiguration Plain = new() { ProcessTerminationTimeout = null, EnableDefaultExceptionHandler = false };

    private readonly Dictionary<Setting, Option<string?>> _options = SettingList.All.Where(setting => !setting.IsSecret).ToDictionary(setting => setting, OptionOf);
    private readonly IReadOnlyDictionary<string, string> _environment;
    private readonly Func<ServiceOptions, Task<int>> _run;
    private readonly RootCommand _command;

    /// <param name="environment">The variables of the environment.</param>
    /// <param name="run">Gets options without faults, and returns the exit code.</param>
    public CommandLine(IReadOnlyDictionary<string, string> environment, Func<ServiceOptions, Task<int>> run)
    {
        (_environment, _run) = (environment, run);
        _command = new RootCommand("""
            The MixEngine service: mixes, ramps, matches, glazes and covers with the paints on a shelf.

            Every option can also stand in the environment, --idle-minutes as MIXENGINE_IDLE_MINUTES, and in a file named with --config, as idle-minutes = 10.
            The command line goes before the environment, the environment before the file. Passwords are taken from the environment and the file alone.
            """);
        foreach (var option in _options.Values)
        {
            _command.Add(option);
        }

        _command.SetAction((_, _) => Task.FromResult(ExitCodes.Ended));
    }

    /// <summary>Runs, or tells every fault of the options at once.</summary>
    /// <returns>The exit code: 1 for faulty options.</returns>
    public async Task<int> InvokeAsync(IReadOnlyList<string> arguments, TextWriter errors)
    {
        var parsed = _command.Parse(arguments, new ParserConfiguration { ResponseFileTokenReplacer = null });
        if (parsed.Action is not (ParseErrorAction or AsynchronousCommandLineAction))
        {
            return await parsed.InvokeAsync(Plain);
        }

        var reader = new SettingReader(setting => Text(parsed, setting), _environment);
        var options = OptionsFrom(reader);
        string[] faults =
        [
            .. Misread(parsed),
            .. reader.Faults,
            .. options.Faults().Select(fault => $"{reader.WhereOf(fault.Setting)}: {fault.Words}"),
        ];
        if (faults.Length == 0)
        {
            return await _run(options);
        }

        foreach (var fault in faults)
        {
            await errors.WriteLineAsync(fault);
        }

        return ExitCodes.Refused;
    }

    private ServiceOptions OptionsFrom(SettingReader said)
    {
        var data = said.Path(SettingList.Data) ?? Path.GetFullPath(DefaultPaths.DataDirectory(_environment.GetValueOrDefault));
        var socket = said.Path(SettingList.Socket) ?? Path.GetFullPath(DefaultPaths.Socket(_environment.GetValueOrDefault, data));
        var (deadline, drain) = (new DeadlineOptions(), new DrainOptions());
        return new ServiceOptions(new SocketOptions { Path = socket }, new DataOptions { Directory = data, Postgres = said.Text(SettingList.Database) })
        {
            Idle = new IdleOptions { Minutes = said.Number(SettingList.IdleMinutes) ?? 0 },
            Listen = new ListenOptions { Grpc = said.Address(SettingList.Grpc), Http = said.Address(SettingList.Http) },
            Tls = new TlsOptions
            {
                Https = said.Address(SettingList.Https),
                Certificate = said.Path(SettingList.Certificate),
                CertificateKey = said.Path(SettingList.CertificateKey),
                CertificatePassword = said.Text(SettingList.CertificatePassword),
            },
            Access = new AccessOptions { RequireKey = said.Switch(SettingList.RequireKey), CallsPerSecond = said.Number(SettingList.CallsPerSecond) ?? new AccessOptions().CallsPerSecond },
            Excel = new ExcelOptions { Folder = said.Path(SettingList.Excel) },
            Deadline = said.Seconds(SettingList.DeadlineSeconds) is { } seconds ? new DeadlineOptions { WhereNoneIsGiven = seconds } : deadline,
            Silence = new SilenceOptions { Seconds = said.Number(SettingList.SilenceSeconds) ?? new SilenceOptions().Seconds },
            Drain = new DrainOptions
            {
                Seconds = said.Number(SettingList.DrainSeconds) ?? drain.Seconds,
                NoticeSeconds = said.Number(SettingList.DrainNoticeSeconds) ?? drain.NoticeSeconds,
            },
            Log = new LogOptions { Form = said.Word(SettingList.Log, LogOptions.Text, LogOptions.Json) },
            Telemetry = new TelemetryOptions
            {
                Metrics = said.Switch(SettingList.Metrics),
                Otlp = said.Url(SettingList.Otlp),
                Standard = _environment.Where(variable => variable.Key.StartsWith(TelemetryOptions.StandardPrefix, StringComparison.Ordinal)).ToDictionary(),
            },
        };
    }

    private static Option<string?> OptionOf(Setting setting) => new(setting.Option)
    {
        HelpName = setting.Value ?? "true|false",
        Description = setting.Description,
        Arity = setting.Value is null ? ArgumentArity.ZeroOrOne : ArgumentArity.ExactlyOne,
    };

    private string? Text(ParseResult parsed, Setting setting) =>
        _options.GetValueOrDefault(setting) is { } option && parsed.GetResult(option) is { Implicit: false } result && !result.Errors.Any()
            ? result.Tokens.FirstOrDefault()?.Value ?? "true"
            : null;

    private static IEnumerable<string> Misread(ParseResult parsed)
    {
        foreach (var word in parsed.UnmatchedTokens)
        {
            yield return SettingList.All.FirstOrDefault(setting => setting.IsSecret && setting.Option == word) is { } secret
                ? $"{word}: every user of this machine could read it there. Say it as {secret.Variable} in the environment, or in the file named with --config."
                : $"'{word}' is not an option.{(SettingList.Meant(word.TrimStart('-')) is { } meant ? $" Did you mean {meant.Option}?" : "")} --help lists all of them.";
        }

        foreach (var error in parsed.Errors.Where(error => !parsed.UnmatchedTokens.Any(word => error.Message.Contains(word, StringComparison.Ordinal))))
        {
            yield return error.Message;
        }
    }
}
