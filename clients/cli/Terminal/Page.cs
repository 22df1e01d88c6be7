using System.Text;

namespace MixEngine.Cli.Terminal;

/// <summary>What a person reads: short lines that need no terminal's width, words and numbers beside every swatch.</summary>
internal sealed class Page(TextWriter output, Palette palette)
{
    private const int Width = 78;

    private const int SwatchWidth = 8;

    /// <summary>One line as it is. It carries no control character, whoever named the paint.</summary>
    public void Line(string text = "") => output.WriteLine(Plain(text).TrimEnd());

    /// <summary>Prose, broken into lines.</summary>
    /// <param name="text">One paragraph.</param>
    /// <param name="indent">Spaces before every line.</param>
    /// <param name="first">What stands in place of the spaces in the first line.</param>
    public void Prose(string text, int indent = 0, string? first = null)
    {
        var line = new StringBuilder(first is null ? new string(' ', indent) : first.PadRight(indent));
        bool isEmpty = true;
        foreach (string word in Plain(text).Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (!isEmpty && line.Length + 1 + word.Length > Width)
            {
                output.WriteLine(line.ToString());
                line.Clear().Append(' ', indent);
                isEmpty = true;
            }
            line.Append(isEmpty ? "" : " ").Append(word);
            isEmpty = false;
        }
        output.WriteLine(line.ToString().TrimEnd());
    }

    /// <summary>Lines beside a patch of the colour as high as they are.</summary>
    /// <param name="margin">What stands before the first; the others are indented as far.</param>
    /// <param name="hex">The colour; null: none.</param>
    /// <param name="lines">The words and numbers.</param>
    public void Beside(string margin, string? hex, params ReadOnlySpan<string> lines)
    {
        // The swatch is our own escape sequence; the text beside it has none.
        string swatch = hex is null ? "" : palette.Swatch(hex, SwatchWidth);
        string gap = swatch.Length > 0 ? "  " : "";
        string before = Plain(margin);
        foreach (string line in lines)
        {
            output.WriteLine((before + swatch + gap + Plain(line)).TrimEnd());
            before = new string(' ', before.Length);
        }
    }

    /// <summary>Remarks of the service, each set off.</summary>
    public void Remarks(IEnumerable<string> remarks, int indent = 2)
    {
        foreach (string remark in remarks)
        {
            Prose(remark, indent + 6, new string(' ', indent) + "Note: ");
        }
    }

    /// <summary>Control characters, which could command a terminal, become visible.</summary>
    public static string Plain(string text)
    {
        if (!text.Any(char.IsControl))
        {
            return text;
        }
        var plain = new StringBuilder(text.Length);
        foreach (char c in text)
        {
            plain.Append(char.IsControl(c) ? '\uFFFD' : c);
        }
        return plain.ToString();
    }
}
