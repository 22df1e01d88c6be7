using MixEngine.Cli.Terminal;
using MixEngine.V1;

namespace MixEngine.Cli.Pages;

internal static class SwatchPage
{
    public static void Write(Page page, AddSwatchResponse answer)
    {
        Write(page, answer.Fit, indent: 0);
        page.Remarks(answer.Remarks);
        Changes(page, answer.Paints);
    }

    public static void Write(Page page, CorrectSwatchResponse answer)
    {
        Write(page, answer.Fit, indent: 0);
        page.Prose($"{answer.Before.Recipe.Text}, {Colour(answer.Before.Color)}", 10, "  Before: ");
        page.Remarks(answer.Remarks);
        Changes(page, answer.Paints);
    }

    public static void Write(Page page, RemoveSwatchResponse answer)
    {
        page.Line($"Swatch {answer.Removed.Id} is forgotten: {answer.Removed.Recipe.Text}, {Colour(answer.Removed.Color)}");
        Changes(page, answer.Paints);
    }

    public static void Write(Page page, ListSwatchesResponse answer, string shelf)
    {
        page.Line($"Shelf {shelf}: {Count(answer.Swatches.Count)}");
        if (answer.Swatches.Count == 0)
        {
            page.Line("Add one: mixengine swatch add \"1 kelp + 4 gull white\" \"#8a9b7c\" --source photo");
            return;
        }
        foreach (SwatchFit fit in answer.Swatches)
        {
            page.Line();
            Write(page, fit, indent: 2);
        }
        page.Line();
        page.Line("  Differences are CIEDE2000, between what was read and what all swatches together say.");
    }

    public static void Write(Page page, ImportSwatchesResponse answer)
    {
        page.Line(answer.DryRun
            ? $"{Count(answer.Added)} would be added, {answer.AlreadyThere} there already; nothing was changed."
            : $"{Count(answer.Added)} added, {answer.AlreadyThere} there already.");
        page.Remarks(answer.Remarks);
        if (answer.Suspects.Count > 0)
        {
            page.Line();
            page.Line("Check the label of");
            foreach (SwatchFit fit in answer.Suspects)
            {
                Write(page, fit, indent: 2);
            }
        }
        Changes(page, answer.Paints);
    }

    /// <summary>One swatch: what it is of, what was read, and how well that agrees.</summary>
    public static void Write(Page page, SwatchFit fit, int indent)
    {
        var margin = new string(' ', indent);
        page.Line($"{margin}{fit.Swatch.Id}  {fit.Swatch.Recipe.Text}");
        page.Beside(margin + "  ", fit.Measured.Hex, $"read    {Phrases.Numbers(fit.Measured)}   {About(fit.Swatch)}".TrimEnd());
        if (fit.Fitted is { } fitted)
        {
            page.Beside(margin + "  ", fitted.Hex, $"fitted  {Phrases.Numbers(fitted)}   {Numerals.Difference(fit.DeltaE00)} away");
        }
        if (fit.HasSuspect && fit.Suspect)
        {
            page.Prose($"It stands out: {Numerals.One(fit.Surprise)} times as far off as is usual. Check its label and its reading.", indent + 9, margin + "  Check: ");
        }
        page.Remarks(fit.Remark.Length > 0 ? [fit.Remark] : [], indent + 2);
    }

    private static void Changes(Page page, IReadOnlyCollection<PaintChange> paints)
    {
        if (paints.Count == 0)
        {
            return;
        }
        page.Line();
        page.Line("What is known of the paints; ± (nineteen times in twenty) is CIEDE2000, half and half with the whitest");
        foreach (PaintChange paint in paints)
        {
            string grade = paint.GradeBefore == paint.GradeAfter || paint.GradeBefore.Length == 0 ? paint.GradeAfter : $"{paint.GradeBefore}, now {paint.GradeAfter}";
            string was = paint.ErrorBefore is null ? "" : $", was {Phrases.PlusMinus(paint.ErrorBefore)}";
            page.Line($"  {paint.Paint}: known by {grade}; {Phrases.PlusMinus(paint.ErrorAfter)}{was}");
        }
    }

    private static string About(Swatch swatch)
    {
        string over = swatch.Backing is { } backing ? $"over {Colour(backing)}" : "";
        string[] said =
        [
            over,
            swatch.Film.Length > 0 ? $"film {swatch.Film}" : "",
            swatch.HasThicknessUm ? $"{Numerals.UpTo(2, swatch.ThicknessUm)} µm" : "",
            swatch.HasCoats ? Phrases.Count(swatch.Coats, "coat") : "",
            swatch.Dosing == "weighed" ? "weighed" : "",
            swatch.Source,
            swatch.Specular.Length > 0 ? $"specular {swatch.Specular}" : "",
            swatch.Finish,
            swatch.Date,
            swatch.Note,
        ];
        return string.Join(", ", said.Where(word => word.Length > 0));
    }

    private static string Colour(ColorInput color) => color.ColorCase == ColorInput.ColorOneofCase.Spectrum ? "a spectrum" : color.Text;

    /// <summary>"1 swatch", "3 swatches".</summary>
    public static string Count(int n) => n == 1 ? "1 swatch" : $"{n} swatches";
}
