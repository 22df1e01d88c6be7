namespace MixEngine.Interchange;

/// <summary>Text that every format and every screen can carry: no control characters but a line feed, whole code points only, nothing blank around it.</summary>
internal static class PlainText
{
    /// <summary>A line separator that is no line end to a format that works by lines. <see cref="Tidy"/> makes a line feed of it.</summary>
    public const char LineSeparator = '\u2028';

    /// <summary>Line ends of every kind become line feeds; blanks around go.</summary>
    public static string Tidy(string text) => text.Trim().ReplaceLineEndings("\n");

    /// <summary>The first character that may not stand in a text, as "U+001B"; null when there is none.</summary>
    public static string? Illegal(string text, bool oneLine)
    {
        for (int i = 0; i < text.Length; i++)
        {
            char c = text[i];
            if (char.IsHighSurrogate(c) && i + 1 < text.Length && char.IsLowSurrogate(text[i + 1]))
            {
                i++;
            }
            else if (char.IsControl(c) && (oneLine || c != '\n') || char.IsSurrogate(c) || c is '\uFFFE' or '\uFFFF' or LineSeparator or '\u2029')
            {
                return $"U+{(int)c:X4}";
            }
        }
        return null;
    }
}
