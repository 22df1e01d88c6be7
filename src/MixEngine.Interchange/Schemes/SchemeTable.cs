using MixEngine.Core;

namespace MixEngine.Interchange;

/// <summary>The keys of one table of a scheme file, asked for one by one; what is wrong is logged with its line and key.</summary>
internal sealed class SchemeTable(TomlTable table, string path, ImportLog log)
{
    private readonly HashSet<string> _known = [];

    public SourceLines Lines => new(table.Line, table.Keys.ToDictionary(k => k.Key, k => k.Value.Line));

    public bool Has(string key) => table.Keys.ContainsKey(key);

    /// <summary>A text, not blank; null where the key is absent or at fault.</summary>
    public string? Text(string key, string expected = "a text between quotation marks")
    {
        if (ValueOf(key) is not { } value)
        {
            return null;
        }
        if (value.Content is string text && !string.IsNullOrWhiteSpace(text))
        {
            return Named(key, text.Trim());
        }
        Fault(key, value.Content is string ? "" : value.Shown, expected, "Write it between quotation marks.");
        return null;
    }

    /// <summary>One text, or a list of them; empty where the key is absent or at fault.</summary>
    public IReadOnlyList<string> Texts(string key, string expected = "a text, or a list of texts such as [\"one\", \"two\"]")
    {
        if (ValueOf(key) is not { } value)
        {
            return [];
        }
        List<TomlValue> items = value.Content as List<TomlValue> ?? [value];
        var texts = new List<string>();
        foreach (TomlValue item in items)
        {
            if (item.Content is not string text || string.IsNullOrWhiteSpace(text))
            {
                Fault(item.Line, key, item.Content is string ? "" : item.Shown, expected, "Write each between quotation marks.");
                return [];
            }
            texts.Add(Named(key, text.Trim()));
        }
        if (texts.Count == 0)
        {
            Fault(key, "[]", expected, "Name at least one, or leave the key out.");
        }
        return texts;
    }

    public double? Number(string key, double least, double most, string unit)
    {
        if (ValueOf(key) is not { } value)
        {
            return null;
        }
        double? number = value.Content switch { long whole => whole, double real => real, _ => null };
        if (number is { } n && n >= least && n <= most)
        {
            return n;
        }
        Fault(key, value.Shown, $"a number from {NumberText.Write(least)} to {NumberText.Write(most)}{(unit.Length > 0 ? " " + unit : "")}",
            value.Content is string ? "Write it without quotation marks." : "Choose a value in this range.");
        return null;
    }

    public int? Whole(string key, int least, int most)
    {
        if (ValueOf(key) is not { } value)
        {
            return null;
        }
        if (value.Content is long whole && whole >= least && whole <= most)
        {
            return (int)whole;
        }
        Fault(key, value.Shown, $"a whole number from {least} to {most}",
            value.Content is string ? "Write it without quotation marks." : "Choose a value in this range.");
        return null;
    }

    public bool? Flag(string key)
    {
        if (ValueOf(key) is not { } value)
        {
            return null;
        }
        if (value.Content is bool flag)
        {
            return flag;
        }
        Fault(key, value.Shown, "true or false", "Write it without quotation marks.");
        return null;
    }

    public T? Word<T>(string key, Vocabulary<T> words) where T : struct, Enum
    {
        if (Text(key, $"one of {words.Expected}") is not { } text)
        {
            return null;
        }
        T? meaning = words.MeaningOf(text);
        if (meaning is null)
        {
            Fault(key, text, $"one of {words.Expected}", "Use one of these words.");
        }
        return meaning;
    }

    /// <summary>The tables of an array such as [[figure]].</summary>
    public IReadOnlyList<TomlTable> Tables(string key)
    {
        if (ValueOf(key) is not { } value)
        {
            return [];
        }
        List<TomlValue> items = value.Content as List<TomlValue> ?? [value];
        if (items.TrueForAll(i => i.Content is TomlTable))
        {
            return [.. items.Select(i => (TomlTable)i.Content!)];
        }
        Fault(key, value.Shown, $"one or more tables headed [[{key}]]", $"Begin each with a line [[{key}]].");
        return [];
    }

    public void Fault(string key, string value, string expected, string remedy) =>
        Fault(table.Keys.TryGetValue(key, out var at) ? at.Line : table.Line, key, value, expected, remedy);

    public void Fault(int line, string key, string value, string expected, string remedy) =>
        log.Fault(line, path.Length > 0 ? $"{path} / {key}" : key, value, expected, remedy);

    /// <summary>Faults every key that was never asked for.</summary>
    public void RefuseOthers()
    {
        foreach ((string key, (int line, TomlValue value)) in table.Keys.Where(k => !_known.Contains(k.Key)))
        {
            string nearest = _known.Order(StringComparer.Ordinal).MinBy(k => Distance(k, key))!;
            Fault(line, key, value.Shown, $"a key of this table: {string.Join(", ", _known.Order(StringComparer.Ordinal))}",
                Distance(nearest, key) <= 3 ? $"Did you mean {nearest}?" : "Remove it, or put it into the table it belongs to.");
        }
    }

    private TomlValue? ValueOf(string key)
    {
        _known.Add(key);
        return table.Keys.TryGetValue(key, out var at) ? at.Value : null;
    }

    private string Named(string key, string text)
    {
        if (text.Length > ImportLimits.NameCharacters)
        {
            Fault(key, text, $"at most {ImportLimits.NameCharacters} characters", "Shorten it.");
        }
        return text;
    }

    // Levenshtein's distance: how many letters must be changed, added or left out.
    private static int Distance(string one, string other)
    {
        int[] row = [.. Enumerable.Range(0, other.Length + 1)];
        for (int i = 1; i <= one.Length; i++)
        {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j <= other.Length; j++)
            {
                int above = row[j];
                row[j] = Math.Min(Math.Min(row[j] + 1, row[j - 1] + 1), diagonal + (one[i - 1] == other[j - 1] ? 0 : 1));
                diagonal = above;
            }
        }
        return row[^1];
    }
}
