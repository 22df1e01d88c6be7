namespace MixEngine.Interchange;

/// <summary>A value of a TOML file and the line on which it stands.</summary>
/// <param name="Line">Counted from 1.</param>
/// <param name="Content">A string, long, double, bool, <see cref="List{T}"/> of values, or <see cref="TomlTable"/>; null for what no key of ours holds, such as a date.</param>
/// <param name="Shown">The value as it may be shown.</param>
internal sealed record TomlValue(int Line, object? Content, string Shown);

/// <summary>A table of a TOML file: its keys in order, each with the line of the key and its value.</summary>
internal sealed class TomlTable(int line)
{
    /// <summary>Line of its heading or of its first key.</summary>
    public int Line { get; private set; } = line;

    public Dictionary<string, (int Line, TomlValue Value)> Keys { get; } = [];

    /// <summary>Sets a key. A table that is continued further down in the file, and an array of tables, are joined.</summary>
    public void Set(string key, int line, TomlValue value)
    {
        Line = Line == 0 ? line : Line;
        if (!Keys.TryGetValue(key, out var there))
        {
            Keys.Add(key, (line, value));
            return;
        }

        switch (there.Value.Content, value.Content)
        {
            case (TomlTable old, TomlTable more):
                foreach (var (name, (at, one)) in more.Keys)
                {
                    old.Set(name, at, one);
                }

                break;
            case (List<TomlValue> old, List<TomlValue> more):
                old.AddRange(more);
                break;
        }
    }
}
