using System.Text;

namespace MixEngine.Interchange;

/// <summary>One line of a CGATS file as words [CGATS17]: separated by blanks, in quotation marks where they hold blanks, a comment behind #.</summary>
internal static class CgatsLine
{
    /// <summary>A word, and whether it stood in quotation marks.</summary>
    public readonly record struct Word(string Text, bool Quoted);

    /// <summary>The words of a line; null when a quotation mark is not closed or stands inside a word.</summary>
    public static List<Word>? Words(string line)
    {
        var words = new List<Word>();
        int at = 0;
        while (true)
        {
            while (at < line.Length && char.IsWhiteSpace(line[at]))
            {
                at++;
            }
            if (at == line.Length || line[at] == '#')
            {
                return words;
            }
            if (line[at] == '"')
            {
                if (Quoted(line, ref at) is not { } text)
                {
                    return null;
                }
                words.Add(new Word(text, true));
                continue;
            }
            int start = at;
            while (at < line.Length && !char.IsWhiteSpace(line[at]))
            {
                if (line[at] == '"')
                {
                    return null;
                }
                at++;
            }
            words.Add(new Word(line[start..at], false));
        }
    }

    /// <summary>The words of a line whose unquoted names hold blanks, but whose columns are separated by tabs; null when a quotation mark stands inside a word.</summary>
    public static List<Word>? TabbedWords(string line)
    {
        var words = new List<Word>();
        foreach (string cell in line.Split('\t', StringSplitOptions.TrimEntries))
        {
            bool quoted = cell is ['"', .., '"'];
            if (!quoted && cell.Contains('"'))
            {
                return null;
            }
            words.Add(new Word(quoted ? cell[1..^1].Replace("\"\"", "\"") : cell, quoted));
        }
        return words;
    }

    /// <summary>The likely cause of a line that cannot be read.</summary>
    public static string LikelyCause(string line)
    {
        string text = line.Trim();
        if (text.StartsWith('"') && text.Contains("\"\""))
        {
            return "A spreadsheet seems to have put quotation marks around the whole line and doubled those in it: restore the line, or export the file again and do not open it in a spreadsheet.";
        }
        if (text.EndsWith(',') || text.EndsWith(';') || text.Contains(",,") || text.Contains(";;"))
        {
            return "A spreadsheet seems to have saved the file with commas or semicolons: restore it, or export it again and do not open it in a spreadsheet.";
        }
        return text.Count(c => c == '"') % 2 != 0
            ? "A quotation mark is not closed on this line: the line may have been cut or joined with another; restore it."
            : "Restore the line, or export the file again.";
    }

    /// <summary>A text in quotation marks, on one line.</summary>
    public static string Quote(string text) => $"\"{text.Replace("\"", "\"\"").Replace('\n', PlainText.LineSeparator)}\"";

    private static string? Quoted(string line, ref int at)
    {
        var text = new StringBuilder();
        for (at++; at < line.Length; at++)
        {
            if (line[at] != '"')
            {
                text.Append(line[at]);
            }
            else if (at + 1 < line.Length && line[at + 1] == '"')
            {
                text.Append('"');
                at++;
            }
            else
            {
                at++;
                return at == line.Length || char.IsWhiteSpace(line[at]) ? text.ToString() : null;
            }
        }
        return null;
    }
}
