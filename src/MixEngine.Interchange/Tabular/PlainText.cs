namespace MixEngine.Interchange;

/// <summary>Text that every format and every screen can carry: no control characters but a line feed, whole code points only, nothing blank around it.</summary>
internal static class PlainText
{
    /// <summary>Line ends become line feeds; blanks around go.</summary>
    public static string Tidy(string text)
    {
        text = text.Trim();
        return text.Contains('\r') ? text.Replace("\r\n", "\n").Replace('\r', '\n') : text;
    }

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
            else if (char.IsControl(c) && (oneLine || c != '\n') || char.IsSurrogate(c) || c is '\uFFFE' or '\uFFFF' or '\u2028' or '\u2029')
            {
                return $"U+{(int)c:X4}";
            }
        }
        return null;
    }
}
