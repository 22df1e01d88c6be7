using System.Globalization;
using System.Text.RegularExpressions;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace MixEngine.Interchange;

/// <summary>Reads TOML into tables that know their lines.</summary>
internal static partial class TomlTree
{
    /// <summary>The root table; null, with every fault of the notation logged, where the text is no TOML.</summary>
    public static TomlTable? Read(string text, ImportLog log)
    {
        foreach (DiagnosticMessage fault in Diagnostics(text, log).Where(d => d.Kind == DiagnosticMessageKind.Error))
        {
            int line = fault.Span.Start.Line + 1;
            log.Fault(line, "notation", LineOf(text, line), "TOML: key = value", $"{Plain(fault.Message)} Put texts and colours between quotation marks, such as target = \"#5a6b3c\".");
        }

        return log.Failed ? null : Table(TomlParser.Create(text, new TomlParserOptions { Mode = TomlParserMode.Tolerant }));
    }

    private static IEnumerable<DiagnosticMessage> Diagnostics(string text, ImportLog log)
    {
        try
        {
            return SyntaxParser.Parse(text).Diagnostics;
        }
        catch (ArgumentOutOfRangeException)
        {
            // What the library throws on a backslash before half a character or the text's end, instead of naming the place.
            int place = text.LastIndexOf('\\');
            foreach (ValueMatch escape in NoEscape().EnumerateMatches(text))
            {
                place = escape.Index;
                break;
            }

            int line = text.AsSpan(0, Math.Max(0, place)).Count('\n') + 1;
            log.Fault(line, "notation", LineOf(text, line), "an escape of TOML after a backslash", "Write \\\\ for a backslash itself, or put the text in single quotation marks.");
            return [];
        }
    }

    [GeneratedRegex(@"\\(?![btnfre""\\uUx\s])", RegexOptions.CultureInvariant)]
    private static partial Regex NoEscape();

    private static TomlTable Table(TomlParser parser)
    {
        while (parser.MoveNext() && parser.Current.Kind != TomlParseEventKind.StartTable)
        {
        }

        return ReadTable(parser, 0);
    }

    private static TomlTable ReadTable(TomlParser parser, int line)
    {
        var table = new TomlTable(line);
        while (parser.MoveNext() && parser.Current.Kind != TomlParseEventKind.EndTable)
        {
            string key = parser.GetPropertyName();
            int at = parser.Current.Line;
            parser.MoveNext();
            table.Set(key, at, Value(parser, at));
        }

        return table;
    }

    private static TomlValue Value(TomlParser parser, int line)
    {
        TomlParseEvent current = parser.Current;
        line = current.Line > 0 ? current.Line : line;
        switch (current.Kind)
        {
            case TomlParseEventKind.StartTable:
                return new TomlValue(line, ReadTable(parser, line), "a table");
            case TomlParseEventKind.StartArray:
                var items = new List<TomlValue>();
                while (parser.MoveNext() && parser.Current.Kind != TomlParseEventKind.EndArray)
                {
                    items.Add(Value(parser, line));
                }

                return new TomlValue(line, items, $"[{string.Join(", ", items.Select(i => i.Shown))}]");
            case TomlParseEventKind.String:
                string text = parser.GetString();
                return new TomlValue(line, text, text);
            case TomlParseEventKind.Integer:
                long whole = current.GetInt64();
                return new TomlValue(line, whole, whole.ToString(CultureInfo.InvariantCulture));
            case TomlParseEventKind.Float:
                double number = current.GetDouble();
                return new TomlValue(line, number, NumberText.Write(number));
            case TomlParseEventKind.Boolean:
                return new TomlValue(line, current.GetBoolean(), current.GetBoolean() ? "true" : "false");
            default:
                return new TomlValue(line, null, "a date or time");
        }
    }

    private static string LineOf(string text, int line) => text.Split('\n').ElementAtOrDefault(line - 1)?.Trim() ?? "";

    // One sentence, with a stop at its end.
    private static string Plain(string message)
    {
        string head = message.Split(" (token:")[0].Trim().TrimEnd('.');
        return head + ".";
    }
}
