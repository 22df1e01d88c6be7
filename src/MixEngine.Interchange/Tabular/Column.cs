using System.Text;

namespace MixEngine.Interchange;

/// <summary>A column that we know: the heading we write and those we also read.</summary>
internal sealed class Column
{
    private readonly HashSet<string> _keys;

    public Column(string name, params string[] synonyms)
    {
        Name = name;
        Key = KeyOf(name);
        _keys = [Key, .. synonyms.Select(KeyOf)];
    }

    /// <summary>The heading we write.</summary>
    public string Name { get; }

    public string Key { get; }

    public bool Answers(string key) => _keys.Contains(key);

    /// <summary>A heading without case, blanks and punctuation: "Drops/ml" and "drops_ml" are one; "L*" is "l".</summary>
    public static string KeyOf(string heading)
    {
        var key = new StringBuilder(heading.Length);
        for (int i = 0; i < heading.Length; i++)
        {
            char c = heading[i];
            if (char.IsLetterOrDigit(c))
            {
                key.Append(char.ToLowerInvariant(c));
            }
            else if (c is '.' or ',' && i > 0 && i + 1 < heading.Length && char.IsAsciiDigit(heading[i - 1]) && char.IsAsciiDigit(heading[i + 1]))
            {
                // A fraction of a nanometre in the heading of a band.
                key.Append('.');
            }
        }
        return key.ToString();
    }
}
