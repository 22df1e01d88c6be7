using System.Globalization;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace MixEngine.Service.Options;

/// <summary>A TOML file of settings: one "name = value" a line.</summary>
internal static class ConfigurationFile
{
    /// <summary>What the file says; every fault of it is noted.</summary>
    /// <param name="path">The file, absolute.</param>
    /// <param name="where">Where the file was named.</param>
    /// <param name="faults">Takes what is wrong, with file and line.</param>
    public static IReadOnlyDictionary<Setting, Said> Read(string path, string where, ICollection<string> faults)
    {
        string text;
        try
        {
            text = File.ReadAllText(path);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            faults.Add($"{where}: the file cannot be read: {fault.Message}");
            return new Dictionary<Setting, Said>();
        }

        var broken = SyntaxParser.Parse(text).Diagnostics.Where(diagnostic => diagnostic.Kind == DiagnosticMessageKind.Error).ToArray();
        foreach (var fault in broken)
        {
            faults.Add($"{path}, line {fault.Span.Start.Line + 1}: {fault.Message.Split(" (token:")[0].TrimEnd('.')}. Write name = value, texts between quotation marks.");
        }

        return broken.Length > 0 ? new Dictionary<Setting, Said>() : Settings(TomlParser.Create(text), path, faults);
    }

    private static Dictionary<Setting, Said> Settings(TomlParser parser, string path, ICollection<string> faults)
    {
        var settings = new Dictionary<Setting, Said>();
        var folder = Path.GetDirectoryName(path)!;
        while (parser.MoveNext() && parser.Current.Kind != TomlParseEventKind.StartTable)
        {
        }

        while (parser.MoveNext() && parser.Current.Kind == TomlParseEventKind.PropertyName)
        {
            var name = parser.GetPropertyName();
            var where = $"{path}, line {parser.Current.Line}";
            parser.MoveNext();
            var value = Text(parser);
            if (SettingList.All.FirstOrDefault(setting => setting.Name == name && setting != SettingList.Config) is not { } setting)
            {
                faults.Add($"{where}: '{name}' is not a setting.{(SettingList.Meant(name) is { } meant ? $" Did you mean {meant.Name}?" : " --help lists all of them.")}");
            }
            else if (value is null)
            {
                faults.Add($"{where}, {name}: give one value: a text between quotation marks, a number, true or false.");
            }
            else
            {
                settings[setting] = new Said(value, $"{where}, {name}", folder);
            }
        }

        return settings;
    }

    // Null: no single value. What belongs to it is passed over.
    private static string? Text(TomlParser parser)
    {
        switch (parser.Current.Kind)
        {
            case TomlParseEventKind.String:
                return parser.GetString();
            case TomlParseEventKind.Integer:
                return parser.Current.GetInt64().ToString(CultureInfo.InvariantCulture);
            case TomlParseEventKind.Float:
                return parser.Current.GetDouble().ToString(CultureInfo.InvariantCulture);
            case TomlParseEventKind.Boolean:
                return parser.Current.GetBoolean() ? "true" : "false";
            case TomlParseEventKind.StartArray or TomlParseEventKind.StartTable:
                for (var depth = 1; depth > 0 && parser.MoveNext();)
                {
                    depth += parser.Current.Kind switch
                    {
                        TomlParseEventKind.StartArray or TomlParseEventKind.StartTable => 1,
                        TomlParseEventKind.EndArray or TomlParseEventKind.EndTable => -1,
                        _ => 0,
                    };
                }

                return null;
            default:
                return null;
        }
    }
}
