using System.Globalization;
using MixEngine.Core;
using PdfSharp.Pdf;

namespace MixEngine.Reports;

/// <summary>The cards as a PDF of A4 pages: an overview, then one figure to a page.</summary>
public static class PdfCards
{
    private const double TallStep = 43;
    private const double LowStep = 34;
    private const double PotRow = 40;
    private const double HeadingRow = 28;
    private const double SwatchX = PdfPen.Left + 38;
    private const double SwatchWidth = 84;
    private const double TextX = SwatchX + SwatchWidth + 10;
    private const double Right = PdfPen.Left + PdfPen.Width;
    private const double Small = 8;

    /// <summary>Writes the pages.</summary>
    /// <param name="book">The cards.</param>
    /// <param name="plan">The plan they are of.</param>
    /// <param name="made">The moment that the file says it was made.</param>
    /// <param name="elsewhere">The same from another shelf, to be put beside it; null: not asked for.</param>
    public static byte[] Write(CardBook book, SchemePlan plan, DateTimeOffset made, SchemeComparison? elsewhere = null)
    {
        ReportFont.Register();
        using var document = new PdfDocument();
        document.Info.Title = book.Title;
        document.Info.Creator = "MixEngine";
        document.Info.CreationDate = made.UtcDateTime;
        using (var pen = new PdfPen(document))
        {
            Overview(pen, book, plan);
            foreach (var figure in book.Figures)
            {
                Figure(pen, figure);
            }

            Elsewhere(pen, elsewhere);
        }

        using var stream = new MemoryStream();
        document.Save(stream, closeStream: false);
        return stream.ToArray();
    }

    private static void Overview(PdfPen pen, CardBook book, SchemePlan plan)
    {
        pen.NewPage(book.Title);
        pen.Line(book.Title, 26, bold: true);
        pen.Line(Text($"{plan.Scheme.Figures.Sum(figure => figure.Count)} figures, {plan.Areas.Count} areas, {plan.Palette.Bottles.Count} bottles, {book.Pots.Count} pots"), 14, bold: true);
        foreach (var remark in book.Remarks)
        {
            pen.Prose(remark, 9);
        }

        Heading(pen, "Bottles", "drops and ml for the whole scheme");
        foreach (var bottle in book.Bottles)
        {
            const double row = 24;
            pen.Room(row);
            if (bottle.Color is { } color)
            {
                pen.Swatch(color, PdfPen.Left, pen.Y + 1, 74, row - 3);
            }

            pen.Put(bottle.Name + (bottle.OnTable ? "  (on the table)" : ""), 13, true, PdfPen.Left + 82, pen.Y + 4, 170);
            pen.Put(Text($"{bottle.Drops:0}"), 15, true, PdfPen.Left + 255, pen.Y + 3, 48, right: true);
            pen.Put(Text($"{bottle.Ml:0.0} ml"), 11, false, PdfPen.Left + 308, pen.Y + 5, 46, right: true);
            pen.Put(bottle.Without, 8, false, PdfPen.Left + 364, pen.Y + 8, PdfPen.Width - 364);
            pen.Y += row;
        }

        if (plan.NotNeeded.Count > 0)
        {
            pen.Y += 4;
            pen.Prose($"Not needed, and may stay in the drawer: {string.Join(", ", plan.NotNeeded.Select(paint => paint.Name))}.", 9.5);
        }

        Heading(pen, "Fewer or more bottles", "the worst difference that could be avoided");
        foreach (var point in plan.Palette.TradeOff)
        {
            var here = point.Bottles == plan.Palette.Bottles.Count;
            pen.Room(16);
            pen.Line(Text($"{point.Bottles} bottles: {point.WorstDeltaE00:0.0} dE00{(point.Proven ? "" : " or less")}{(here ? "   (this plan)" : "")}"), 11, here);
        }

        if (plan.ToBuy.Count > 0)
        {
            Heading(pen, "What to buy next", "");
            foreach (var next in plan.ToBuy.Take(5))
            {
                pen.Room(16);
                pen.Line(Text($"{next.Paint.Name}: brings {next.Improved} colours nearer, {next.Reached} of them within reach; helps most at {next.Best}"), 10);
            }
        }

        Heading(pen, "Take care", "");
        foreach (var caution in book.Cautions)
        {
            pen.Prose(caution.About, 9.5, bold: true);
            pen.Prose(caution.Words, 9.5, PdfPen.Left + 12);
        }
    }

    private static void Figure(PdfPen pen, FigureCard figure)
    {
        pen.NewPage(figure.Name);
        var count = Text($"× {figure.Count}");
        pen.Put(count, 32, true, PdfPen.Left, pen.Y - 4, PdfPen.Width, right: true);
        pen.Line(figure.Name, 26, bold: true, width: PdfPen.Width - 110);
        if (figure.Primer is { } primer)
        {
            pen.Line($"First: {primer}", 14, bold: true);
        }

        if (figure.Pots.Count > 0)
        {
            Heading(pen, "Pots", "parts; below them the drops for all that this pot paints in the scheme");
        }

        foreach (var pot in figure.Pots)
        {
            pen.Room(PotRow);
            pen.Put(Text($"pot {pot.Number}"), 12, true, PdfPen.Left, pen.Y + 10, 37);
            pen.Swatch(pot.Color, SwatchX, pen.Y + 2, SwatchWidth, PotRow - 6);
            var end = Make(pen, pot.Parts) + 14;
            pen.Put(pot.Rounding, Small, false, end, pen.Y + 5, Right - end, right: true);
            pen.Put(Text($"{pot.DropsText} drops = {pot.Ml:0.0#} ml    {pot.Percent}"), 9.5, false, TextX, pen.Y + 18, Right - TextX);
            pen.Put(pot.Warning, 8, false, TextX, pen.Y + 29, Right - TextX);
            pen.Y += PotRow;
        }

        // Lower rows where that keeps the figure on its one page.
        var steps = figure.Areas.Sum(area => area.Steps.Count);
        var rest = PdfPen.Bottom - pen.Y - figure.Areas.Sum(area => HeadingRow + 10 * area.Remarks.Count) - (figure.Varnish is null ? 0 : 24);
        var row = rest / steps is var fitting && fitting >= LowStep ? Math.Min(TallStep, fitting) : TallStep;
        foreach (var area in figure.Areas)
        {
            // An area is painted from one page: it moves to the next where it does not fit on this one.
            pen.Room(Math.Min(area.Steps.Count * row + HeadingRow, PdfPen.Bottom - PdfPen.Top - 20));
            Heading(pen, area.Name, area.Role + (area.SameAs is { } same ? $", as {same}" : ""));
            foreach (var step in area.Steps)
            {
                StepRow(pen, step, row);
            }

            foreach (var remark in area.Remarks)
            {
                pen.Prose(remark, 8, TextX);
            }
        }

        if (figure.Varnish is { } varnish)
        {
            pen.Room(24);
            pen.Y += 4;
            pen.Line($"Last: {varnish}", 14, bold: true);
        }
    }

    private static void StepRow(PdfPen pen, CardStep step, double row)
    {
        pen.Room(row);
        pen.Put(Text($"{step.Number}"), 20, true, PdfPen.Left, pen.Y + 6, 34);
        pen.Swatch(step.Color, SwatchX, pen.Y + 2, SwatchWidth, row - 6);
        var end = step.Parts.Count == 1 ? TextX + pen.Put(step.Parts[0].Of, 16, true, TextX, pen.Y, 300) : Make(pen, step.Parts);
        if (step.Coats > 1)
        {
            end += 14 + pen.Put(Text($"× {step.Coats} coats"), 13, true, end + 14, pen.Y + 2, 90);
        }

        // Three lines, each with something at its right end; a long recipe sends what stands right of it down to the last.
        var look = $"{step.Color.Words}   {step.Color.LabText}";
        var lookFits = end + 14 + pen.WidthOf(look, Small, false) <= Right;
        Spread(pen, $"{step.Name}: {step.Where}", 10.5, step.Sure, pen.Y + row * 0.43);
        Spread(pen, step.Percent, Small, lookFits ? "" : look, pen.Y + row * 0.72);
        pen.Put(lookFits ? look : "", Small, false, end, pen.Y + 5, Right - end, right: true);
        pen.Y += row;
        pen.Rule(pen.Y - 1);
    }

    // A text from the left and one that ends at the right.
    private static void Spread(PdfPen pen, string text, double size, string right, double y)
    {
        var width = right.Length == 0 ? 0 : 14 + pen.WidthOf(right, Small, false);
        pen.Put(text, size, false, TextX, y, Right - TextX - width);
        pen.Put(right, Small, false, TextX, y + Math.Max(0, size - Small), Right - TextX, right: true);
    }

    private static void Elsewhere(PdfPen pen, SchemeComparison? elsewhere)
    {
        if (elsewhere is null)
        {
            return;
        }

        const double row = 34;
        const double half = (PdfPen.Width - 60) / 2;
        pen.NewPage("From the other shelf");
        pen.Line("From the other shelf", 26, bold: true);
        pen.Line("left: here; right: there; the number: how far apart, dE00", 11);
        foreach (var step in elsewhere.Steps)
        {
            pen.Room(row);
            pen.Put($"{step.Area.Key} / {step.First.Name}", 9.5, true, PdfPen.Left, pen.Y, PdfPen.Width - 60);
            Beside(pen, step.First, PdfPen.Left, half);
            Beside(pen, step.Second, PdfPen.Left + half, half);
            pen.Put(Text($"{step.DeltaE00:0.0}"), 16, true, PdfPen.Left + PdfPen.Width - 58, pen.Y + 6, 56, right: true);
            pen.Put(step.Words, 7.5, false, PdfPen.Left + PdfPen.Width - 130, pen.Y, 128, right: true);
            pen.Y += row;
            pen.Rule(pen.Y - 2);
        }
    }

    private static void Beside(PdfPen pen, LayerPlan layer, double x, double width)
    {
        pen.Swatch(CardColor.Of(layer.Appearance), x, pen.Y + 13, 62, 16);
        pen.Put(CardStep.PercentOf(layer.Recipe), 8, false, x + 66, pen.Y + 16, width - 72);
    }

    // Large numbers, for a hand that holds a bottle and not the page. Returns where it ends.
    private static double Make(PdfPen pen, IReadOnlyList<(string Count, string Of)> parts)
    {
        var x = TextX;
        for (var i = 0; i < parts.Count; i++)
        {
            x += i == 0 ? 0 : pen.Put("+", 12, false, x, pen.Y + 2, 20) + 6;
            x += pen.Put(parts[i].Count, 17, true, x, pen.Y - 2, 60) + 5;
            x += pen.Put(parts[i].Of, 12, false, x, pen.Y + 2, (Right - x) / (parts.Count - i)) + 6;
        }

        return x;
    }

    private static void Heading(PdfPen pen, string text, string small)
    {
        pen.Room(HeadingRow + 12);
        pen.Y += 7;
        var width = pen.Put(text, 15, true, PdfPen.Left, pen.Y, 300);
        pen.Put(small, 9, false, PdfPen.Left + width + 10, pen.Y + 6, PdfPen.Width - width - 10);
        pen.Y += 19;
        pen.Rule(pen.Y, 1.5);
        pen.Y += 2;
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
