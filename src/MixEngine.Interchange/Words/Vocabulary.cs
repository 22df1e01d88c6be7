using System.Text;

namespace MixEngine.Interchange;

/// <summary>The words a column may hold: for each meaning the one we write, then those we also read.</summary>
internal sealed class Vocabulary<T> where T : struct, Enum
{
    private readonly Dictionary<T, string> _words = [];
    private readonly Dictionary<string, T> _meanings = [];

    public Vocabulary(params (T Meaning, string[] Words)[] entries)
    {
        foreach ((T meaning, string[] words) in entries)
        {
            _words.Add(meaning, words[0]);
            foreach (string word in words)
            {
                _meanings.Add(Plain(word), meaning);
            }
        }
    }

    /// <summary>The words we write, as a list for people.</summary>
    public string Expected => string.Join(", ", _words.Values);

    public string WordFor(T meaning) => _words[meaning];

    public T? MeaningOf(string text) => _meanings.TryGetValue(Plain(text), out T meaning) ? meaning : null;

    /// <summary>Case, spaces and punctuation (but for %) do not matter: "Semi Opaque" is "semi-opaque".</summary>
    private static string Plain(string text)
    {
        var plain = new StringBuilder(text.Length);
        foreach (char c in text)
        {
            if (char.IsLetterOrDigit(c) || c == '%')
            {
                plain.Append(char.ToLowerInvariant(c));
            }
        }
        return plain.ToString();
    }
}
