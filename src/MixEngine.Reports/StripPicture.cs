using System.Globalization;
using MixEngine.Colorimetry;
using SkiaSharp;

namespace MixEngine.Reports;

/// <summary>The swatches of one figure as a picture: a row for each area, dark to light, with numbers and words on them.</summary>
public static class StripPicture
{
    private const int Margin = 24;
    private const int Row = 176;
    private const int Label = 250;
    private const int Swatch = 210;
    private const int Heading = 70;

    /// <summary>Draws the picture as PNG.</summary>
    public static byte[] Draw(FigureCard figure)
    {
        var steps = figure.Areas.Max(area => area.Steps.Count);
        var info = new SKImageInfo(2 * Margin + Label + steps * Swatch, Heading + Margin + figure.Areas.Count * Row);
        using var surface = SKSurface.Create(info);
        var canvas = surface.Canvas;
        canvas.Clear(SKColors.White);
        using var bold = ReportFont.Picture(bold: true);
        using var regular = ReportFont.Picture(bold: false);
        Write(canvas, string.Create(CultureInfo.InvariantCulture, $"{figure.Name}  × {figure.Count}"), bold, 38, Margin, 50, info.Width - 2 * Margin, SKColors.Black);
        for (var i = 0; i < figure.Areas.Count; i++)
        {
            var y = Heading + i * Row;
            Write(canvas, figure.Areas[i].Name, bold, 26, Margin, y + 34, Label - 16, SKColors.Black);
            Write(canvas, figure.Areas[i].Role, regular, 18, Margin, y + 62, Label - 16, SKColors.Black);
            for (var j = 0; j < figure.Areas[i].Steps.Count; j++)
            {
                Step(canvas, figure.Areas[i].Steps[j], bold, regular, Margin + Label + j * Swatch, y);
            }
        }

        using var image = surface.Snapshot();
        using var png = image.Encode(SKEncodedImageFormat.Png, 100);
        return png.ToArray();
    }

    private static void Step(SKCanvas canvas, CardStep step, SKTypeface bold, SKTypeface regular, int x, int y)
    {
        const int gap = 8;
        const int height = 108;
        var box = SKRect.Create(x, y, Swatch - gap, height);
        using var fill = new SKPaint { Color = ColorOf(step.Color.Hex) };
        using var frame = new SKPaint { Color = SKColors.Black, Style = SKPaintStyle.Stroke, StrokeWidth = 3 };
        canvas.DrawRect(box, fill);
        canvas.DrawRect(box, frame);

        var ink = step.Color.IsDark ? SKColors.White : SKColors.Black;
        Write(canvas, step.Number.ToString(CultureInfo.InvariantCulture), bold, 40, x + 10, y + 44, 70, ink);
        Write(canvas, string.Create(CultureInfo.InvariantCulture, $"L {step.Color.Lab.L:0}"), bold, 24, x + 10, y + 76, 90, ink);
        Write(canvas, step.Color.HexText, regular, 18, x + 10, y + 99, Swatch - 28, ink);
        Write(canvas, step.PartsText, bold, 19, x, y + height + 24, Swatch - gap - 4, SKColors.Black);
        Write(canvas, step.Color.Words, regular, 16, x, y + height + 46, Swatch - gap - 4, SKColors.Black);
    }

    // What is too wide is written smaller.
    private static void Write(SKCanvas canvas, string text, SKTypeface typeface, float size, float x, float y, float width, SKColor color)
    {
        using var font = new SKFont(typeface, size) { Subpixel = true };
        using var paint = new SKPaint { Color = color, IsAntialias = true };
        var measured = font.MeasureText(text);
        font.Size = measured > width ? Math.Max(10, size * width / measured) : size;
        canvas.DrawText(text, x, y, font, paint);
    }

    private static SKColor ColorOf(HexColor hex) => new(hex.R, hex.G, hex.B);
}
