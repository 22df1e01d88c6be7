using System.Globalization;

namespace MixEngine.Cli.Terminal;

/// <summary>How many colours the place that standard output goes to can show.</summary>
internal enum Depth
{
    /// <summary>None: a pipe, a file, NO_COLOR, or a terminal that says nothing of itself. Not one escape byte is written.</summary>
    None,

    /// <summary>The 216 colours of the cube and 24 greys that xterm began with.</summary>
    Indexed,

    /// <summary>Every sRGB colour.</summary>
    True,
}

/// <summary>Swatches for a terminal, or nothing at all.</summary>
internal sealed class Palette(Depth depth)
{
    private static readonly int[] CubeLevels = [0, 95, 135, 175, 215, 255];

    public bool ShowsColours => depth != Depth.None;

    /// <summary>Decided when the command starts, by what standard output is, and by NO_COLOR, COLORTERM and TERM.</summary>
    public static Palette OfStandardOutput { get; } = Decide();

    private static Palette Decide()
    {
        string Variable(string name) => Environment.GetEnvironmentVariable(name) ?? "";
        string term = Variable("TERM");
        bool isPlain = Console.IsOutputRedirected || Variable("NO_COLOR").Length > 0 || term == "dumb";
        return new Palette(
            isPlain ? Depth.None
            : Variable("COLORTERM") is "truecolor" or "24bit" ? Depth.True
            : term.Contains("256color", StringComparison.Ordinal) ? Depth.Indexed
            : Depth.None);
    }

    /// <summary>A patch of the colour, and nothing where no colours are shown.</summary>
    /// <param name="hex">"#rrggbb".</param>
    /// <param name="width">In columns.</param>
    public string Swatch(string hex, int width)
    {
        if (depth == Depth.None || !TryRead(hex, out int r, out int g, out int b))
        {
            return "";
        }
        string background = depth == Depth.True ? $"2;{r};{g};{b}" : $"5;{Nearest(r, g, b)}";
        return $"\e[48;{background}m{new string(' ', width)}\e[0m";
    }

    private static bool TryRead(string hex, out int r, out int g, out int b)
    {
        r = g = b = 0;
        if (hex.Length != 7 || hex[0] != '#' || !int.TryParse(hex.AsSpan(1), NumberStyles.AllowHexSpecifier, Numerals.Invariant, out int rgb))
        {
            return false;
        }
        (r, g, b) = (rgb >> 16, (rgb >> 8) & 255, rgb & 255);
        return true;
    }

    /// <summary>The nearest of the cube and of the greys, by plain distance in sRGB: the numbers beside the swatch are exact.</summary>
    private static int Nearest(int r, int g, int b)
    {
        int Level(int value) => Enumerable.Range(0, 6).MinBy(i => Math.Abs(CubeLevels[i] - value));
        int Distance(int r2, int g2, int b2) => ((r - r2) * (r - r2)) + ((g - g2) * (g - g2)) + ((b - b2) * (b - b2));

        (int lr, int lg, int lb) = (Level(r), Level(g), Level(b));
        int grey = Math.Clamp((((r + g + b) / 3) - 8 + 5) / 10, 0, 23);
        int greyValue = 8 + (10 * grey);
        return Distance(CubeLevels[lr], CubeLevels[lg], CubeLevels[lb]) <= Distance(greyValue, greyValue, greyValue)
            ? 16 + (36 * lr) + (6 * lg) + lb
            : 232 + grey;
    }
}
