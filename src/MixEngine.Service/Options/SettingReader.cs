using System.Globalization;
using System.Net;

namespace MixEngine.Service.Options;

/// <summary>Reads settings from wherever they were said: the command line goes before the environment, the environment before the file.</summary>
internal sealed class SettingReader
{
    private readonly Dictionary<Setting, Said> _said = [];
    private readonly List<string> _faults = [];

    /// <param name="commandLine">What the command line says of a setting, null where nothing.</param>
    /// <param name="environment">All variables of the environment.</param>
    public SettingReader(Func<Setting, string?> commandLine, IReadOnlyDictionary<string, string> environment)
    {
        var here = Directory.GetCurrentDirectory();
        foreach (var setting in SettingList.All)
        {
            if (commandLine(setting) is { } option)
            {
                _said[setting] = new Said(option, setting.Option, here);
            }
            else if (environment.GetValueOrDefault(setting.Variable) is { } variable && !string.IsNullOrWhiteSpace(variable))
            {
                _said[setting] = new Said(variable, setting.Variable, here);
            }
        }

        if (Path(SettingList.Config) is { } file)
        {
            foreach (var (setting, said) in ConfigurationFile.Read(file, _said[SettingList.Config].Where, _faults))
            {
                _said.TryAdd(setting, said);
            }
        }

        _faults.AddRange(Misspelt(environment.Keys));
    }

    /// <summary>Every fault found so far.</summary>
    public IReadOnlyList<string> Faults => _faults;

    /// <summary>Where a setting was said; what it is called on the command line, where nobody said it.</summary>
    public string WhereOf(string name) =>
        _said.FirstOrDefault(said => said.Key.Name == name).Value?.Where ?? "--" + name;

    /// <summary>A text as it stands.</summary>
    public string? Text(Setting setting) => Read<string>(setting, said => said.Text.Length > 0 ? said.Text : Fault(said, "it is empty; give a value, or leave it out."));

    /// <summary>A path, made absolute.</summary>
    public string? Path(Setting setting) => Read<string>(setting, said => string.IsNullOrWhiteSpace(said.Text)
        ? Fault(said, "the path is empty; name one, or leave it out.")
        : System.IO.Path.GetFullPath(said.Text, said.Folder));

    /// <summary>A number.</summary>
    public double? Number(Setting setting) => Read<double?>(setting, said =>
        double.TryParse(said.Text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
            ? number
            : Fault(said, $"'{said.Text}' is not a number; give one such as 10."));

    /// <summary>Seconds; what no duration can hold counts as the longest one.</summary>
    public TimeSpan? Seconds(Setting setting) => Number(setting) is { } seconds ? TimeSpan.FromSeconds(Math.Clamp(double.IsNaN(seconds) ? -1 : seconds, -1e9, 1e9)) : null;

    /// <summary>Whether a switch is on.</summary>
    public bool Switch(Setting setting) => Read<bool?>(setting, said => said.Text switch
    {
        "true" => true,
        "false" => false,
        _ => Fault(said, $"'{said.Text}' is neither true nor false."),
    }) ?? false;

    /// <summary>One of some words.</summary>
    public string? Word(Setting setting, params string[] words) => Read<string>(setting, said =>
        words.Contains(said.Text) ? said.Text : Fault(said, $"'{said.Text}' is not known; use {string.Join(" or ", words)}."));

    /// <summary>An address and a port. A port must be written: the parser would take its absence for port 0.</summary>
    public IPEndPoint? Address(Setting setting) => Read<IPEndPoint>(setting, said =>
        IPEndPoint.TryParse(said.Text, out var address) && said.Text.EndsWith($":{address.Port}", StringComparison.Ordinal)
            ? address
            : Fault(said, $"'{said.Text}' is not an address and a port, such as 127.0.0.1:5180."));

    /// <summary>An address of the web.</summary>
    public Uri? Url(Setting setting) => Read<Uri>(setting, said =>
        Uri.TryCreate(said.Text, UriKind.Absolute, out var url) && url.Scheme is "http" or "https"
            ? url
            : Fault(said, $"'{said.Text}' is not an address such as http://127.0.0.1:4317."));

    private T? Read<T>(Setting setting, Func<Said, Result<T>> read) =>
        _said.GetValueOrDefault(setting) is { } said && read(said) is { HasValue: true } result ? result.Value : default;

    private NoValue Fault(Said said, string words)
    {
        _faults.Add($"{said.Where}: {words}");
        return default;
    }

    // A variable that is nearly a setting is taken for a slip. Any other may belong to a tool built on MixEngine, or to the machine: orchestrators name variables after services.
    private static IEnumerable<string> Misspelt(IEnumerable<string> variables) =>
        from variable in variables.Where(Setting.IsVariable).Order(StringComparer.Ordinal)
        where SettingList.All.All(setting => setting.Variable != variable)
        let meant = SettingList.Meant(variable["MIXENGINE_".Length..].Replace('_', '-').ToLowerInvariant())
        where meant is not null
        select $"{variable} is not a setting. Did you mean {meant.Variable}?";

    // What could not be read has its fault already, and counts as not said.
    private readonly record struct NoValue;

    private readonly record struct Result<T>(T? Value, bool HasValue)
    {
        public static implicit operator Result<T>(T value) => new(value, true);

        public static implicit operator Result<T>(NoValue _) => default;
    }
}
