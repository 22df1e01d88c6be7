using System.CommandLine;

namespace MixEngine.Service.Options;

/// <summary>Where a command finds what is stored: the settings of a service that say so, from its command line, the environment and the file.</summary>
/// <param name="environment">All variables of the environment.</param>
/// <param name="settings">Those that the command line may say.</param>
internal sealed class DataPlace(IReadOnlyDictionary<string, string> environment, params IEnumerable<Setting> settings)
{
    private readonly Dictionary<Setting, Option<string?>> _options =
        settings.ToDictionary(setting => setting, setting => new Option<string?>(setting.Option) { HelpName = setting.Value, Description = setting.Description, Recursive = true });

    /// <summary>Gives a command, and those beneath it, the options.</summary>
    public void AddTo(Command command)
    {
        foreach (var option in _options.Values)
        {
            command.Add(option);
        }
    }

    /// <summary>Acts on the place, unless what was said of it has faults: then all of them are told.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="errors">Gets the faults.</param>
    /// <param name="act">Gets the database, the socket of the service that uses it, and where the database was named.</param>
    /// <returns>The exit code.</returns>
    public int With(ParseResult parsed, TextWriter errors, Func<DataOptions, SocketOptions, string, int> act)
    {
        var said = new SettingReader(setting => _options.GetValueOrDefault(setting) is { } option ? parsed.GetValue(option) : null, environment);
        var folder = said.Path(SettingList.Data) ?? Path.GetFullPath(DefaultPaths.DataDirectory(environment.GetValueOrDefault));
        var data = new DataOptions { Directory = folder, Postgres = said.Text(SettingList.Database) };
        var socket = new SocketOptions { Path = said.Path(SettingList.Socket) ?? Path.GetFullPath(DefaultPaths.Socket(environment.GetValueOrDefault, folder)) };
        string[] faults = [.. said.Faults, .. data.Faults().Concat(socket.Faults()).Select(fault => $"{said.WhereOf(fault.Setting)}: {fault.Words}")];
        if (faults.Length > 0)
        {
            errors.WriteLine(string.Join('\n', faults));
            return ExitCodes.Refused;
        }

        return act(data, socket, said.WhereOf(SettingList.Database.Name));
    }
}
