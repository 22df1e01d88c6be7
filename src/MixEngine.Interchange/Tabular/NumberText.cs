using System.Globalization;

namespace MixEngine.Interchange;

/// <summary>Numbers as text, whatever the country of the file and of the process.</summary>
internal static class NumberText
{
    /// <summary>The shortest text that reads back as the same double.</summary>
    public static string Write(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    /// <summary>
    /// Reads a finite number whose decimal mark is a point or a comma. There are no thousands separators:
    /// "41,20" is 41.2 and "1,234.5" is no number, because it cannot be known what was meant.
    /// </summary>
    public static bool TryRead(ReadOnlySpan<char> text, out double value)
    {
        value = 0;
        Span<char> plain = stackalloc char[64];
        if (text.Length is 0 or > 64)
        {
            return false;
        }

        // Sign, digits with at most one mark, exponent; the mark becomes a point.
        int at = 0, digits = 0, marks = 0;
        if (text[0] is '+' or '-' or '\u2212')
        {
            plain[0] = text[0] == '+' ? '+' : '-';
            at = 1;
        }
        for (; at < text.Length && text[at] is (>= '0' and <= '9') or '.' or ','; at++)
        {
            bool mark = text[at] is '.' or ',';
            marks += mark ? 1 : 0;
            digits += mark ? 0 : 1;
            plain[at] = mark ? '.' : text[at];
        }
        if (digits == 0 || marks > 1)
        {
            return false;
        }
        if (at < text.Length)
        {
            if (text[at] is not ('e' or 'E') || text.Length == at + 1 || !IsInteger(text[(at + 1)..]))
            {
                return false;
            }
            text[at..].CopyTo(plain[at..]);
        }
        return double.TryParse(plain[..text.Length], NumberStyles.Float, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);
    }

    /// <summary>What to do about a text that is no number.</summary>
    public static string Remedy(string text)
    {
        if (text.Equals("nan", StringComparison.OrdinalIgnoreCase) || text.Contains("inf", StringComparison.OrdinalIgnoreCase))
        {
            return "Measure it again, or leave this row out.";
        }
        return text.Contains(',') && text.Contains('.') || text.Count(c => c is ',' or '.') > 1
            ? "Write it without thousands separators: one decimal point or comma only."
            : "Write a plain number such as 41.2 or 41,2.";
    }

    private static bool IsInteger(ReadOnlySpan<char> text)
    {
        if (text[0] is '+' or '-')
        {
            text = text[1..];
        }
        return text.Length > 0 && !text.ContainsAnyExceptInRange('0', '9');
    }
}
