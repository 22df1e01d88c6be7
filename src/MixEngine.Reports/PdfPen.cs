using MixEngine.Colorimetry;
using PdfSharp;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace MixEngine.Reports;

/// <summary>A pen that walks down A4 pages, in points, and turns the page when it is full.</summary>
internal sealed class PdfPen : IDisposable
{
    public const double Left = 34;
    public const double Width = 527;
    public const double Top = 34;
    public const double Bottom = 808;

    private static readonly Dictionary<(double, bool), XFont> Fonts = [];
    private readonly PdfDocument _document;
    private readonly List<XGraphics> _pages = [];
    private string _running = "";

    public PdfPen(PdfDocument document) => _document = document;

    /// <summary>Where the next line begins.</summary>
    public double Y { get; set; }

    private XGraphics Page => _pages[^1];

    /// <summary>Begins a page; its title is repeated should it run on.</summary>
    public void NewPage(string title)
    {
        var page = _document.AddPage();
        page.Size = PageSize.A4;
        _pages.Add(XGraphics.FromPdfPage(page));
        _running = title;
        Y = Top;
    }

    /// <summary>Turns the page where so much no longer fits.</summary>
    public void Room(double height)
    {
        if (Y + height <= Bottom)
        {
            return;
        }

        var title = _running;
        NewPage(title);
        Line($"{title}, continued", 11, bold: true);
    }

    /// <summary>Writes a line and goes below it; what is too wide is written smaller, then cut.</summary>
    public void Line(string text, double size, bool bold = false, double x = Left, double? width = null)
    {
        Put(text, size, bold, x, Y, width ?? Left + Width - x);
        Y += size * 1.25;
    }

    /// <summary>Writes a paragraph.</summary>
    public void Prose(string text, double size, double x = Left, bool bold = false)
    {
        foreach (var line in Wrapped(text, FontOf(size, bold), Left + Width - x))
        {
            Room(size * 1.25);
            Line(line, size, bold, x);
        }
    }

    /// <summary>How wide a text is, in points.</summary>
    public double WidthOf(string text, double size, bool bold) => Page.MeasureString(text, FontOf(size, bold)).Width;

    /// <summary>Writes at a place; returns the width.</summary>
    public double Put(string text, double size, bool bold, double x, double y, double width, XBrush? brush = null, bool right = false)
    {
        var font = FontOf(size, bold);
        var measured = Page.MeasureString(text, font).Width;
        while (measured > width && font.Size > size * 0.72)
        {
            font = FontOf(font.Size - 0.5, bold);
            measured = Page.MeasureString(text, font).Width;
        }

        while (measured > width && text.Length > 1)
        {
            text = text.TrimEnd('\u2026')[..^1] + "\u2026";
            measured = Page.MeasureString(text, font).Width;
            if (text.Length <= 2)
            {
                break;
            }
        }

        Page.DrawString(text, font, brush ?? XBrushes.Black, right ? x + width - measured : x, y + font.Size);
        return measured;
    }

    /// <summary>A swatch with its lightness and hex written on it, in a frame that holds in black and white too.</summary>
    public void Swatch(CardColor color, double x, double y, double width, double height)
    {
        Page.DrawRectangle(new XPen(XColors.Black, 1), BrushOf(color.Hex), x, y, width, height);
        var ink = color.IsDark ? XBrushes.White : XBrushes.Black;
        const double twoLines = 26;
        var beside = height < twoLines ? Put(FormattableString.Invariant($"L {color.Lab.L:0}"), 10, true, x + 4, y + (height - 13) / 2, 30, ink) + 6 : 0;
        if (beside == 0)
        {
            Put(FormattableString.Invariant($"L {color.Lab.L:0}"), 10, true, x + 4, y + 2, width - 8, ink);
        }

        Put(color.HexText, 7.5, false, x + 4 + beside, beside > 0 ? y + (height - 9.5) / 2 : y + height - 11, width - 8 - beside, ink);
    }

    public void Rule(double y, double thickness = 0.5) => Page.DrawLine(new XPen(XColors.Black, thickness), Left, y, Left + Width, y);

    public void Frame(double y, double height) => Page.DrawRectangle(new XPen(XColors.Black, 1), Left, y, Width, height);

    public void Dispose() => _pages.ForEach(page => page.Dispose());

    private static XFont FontOf(double size, bool bold)
    {
        lock (Fonts)
        {
            return Fonts.TryGetValue((size, bold), out var font) ? font : Fonts[(size, bold)] = new XFont(ReportFont.Family, size, bold ? XFontStyleEx.Bold : XFontStyleEx.Regular);
        }
    }

    private static XSolidBrush BrushOf(HexColor hex) => new(XColor.FromArgb(hex.R, hex.G, hex.B));

    private IEnumerable<string> Wrapped(string text, XFont font, double width)
    {
        var line = "";
        foreach (var word in text.Split(' '))
        {
            var longer = line.Length == 0 ? word : $"{line} {word}";
            if (line.Length > 0 && Page.MeasureString(longer, font).Width > width)
            {
                yield return line;
                line = word;
            }
            else
            {
                line = longer;
            }
        }

        yield return line;
    }
}
