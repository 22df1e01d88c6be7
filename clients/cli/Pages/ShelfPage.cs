using MixEngine.Cli.Terminal;
using MixEngine.V1;

namespace MixEngine.Cli.Pages;

internal static class ShelfPage
{
    public static void Write(Page page, ListShelvesResponse answer)
    {
        foreach (ShelfSummary shelf in answer.Shelves)
        {
            page.Line($"{shelf.Shelf}: {Phrases.Count(shelf.Paints, "paint")}");
        }
        if (answer.Shelves.Count == 0)
        {
            page.Line("There is no shelf yet. Import one: mixengine shelf import my-paints.csv");
        }
    }

    public static void Write(Page page, ListPaintsResponse answer)
    {
        page.Line($"Shelf {answer.Shelf}: {Phrases.Count(answer.Paints.Count, "paint")}");
        if (answer.Paints.Count == 0)
        {
            page.Line("Import some: mixengine shelf import my-paints.csv");
            return;
        }
        page.Line();
        foreach (Paint paint in answer.Paints)
        {
            page.Beside("  ", paint.Color?.Hex, Name(paint), Summary(paint));
        }
        if (answer.Paints.FirstOrDefault(paint => paint.Color is not null) is { } first)
        {
            page.Line();
            page.Line($"  Under {Phrases.Conditions(first.Color)}; ± (nineteen times in twenty) is CIEDE2000.");
        }
    }

    public static void Write(Page page, GetPaintResponse answer) => Write(page, answer.Paint);

    public static void Write(Page page, RemovePaintResponse answer, string shelf) =>
        page.Line($"{answer.Removed.Name} is no longer on shelf {shelf}.");

    public static void Write(Page page, ImportShelfResponse answer)
    {
        page.Line(answer.DryRun ? $"Shelf {answer.Shelf} would change so; nothing was changed:" : $"Shelf {answer.Shelf}:");
        Names(page, "new", answer.Added);
        Names(page, "changed", answer.Changed);
        Names(page, "as they were", answer.Unchanged);
        page.Remarks(answer.Remarks);
    }

    private static void Names(Page page, string what, IReadOnlyCollection<string> names)
    {
        if (names.Count > 0)
        {
            page.Prose(string.Join(", ", names), 6, $"  {names.Count} {what}: ");
        }
    }

    private static void Write(Page page, Paint paint)
    {
        page.Line(Name(paint));
        if (paint.Color is { } color)
        {
            page.Beside("  ", color.Hex, color.Words, Phrases.Numbers(color), Phrases.Doubt(paint.ExpectedError));
        }
        page.Line();
        Fact(page, "kind", paint.Kind);
        Fact(page, "opacity", paint.Opacity);
        Fact(page, "finish", paint.Finish);
        Fact(page, "known by", paint.Grade);
        Fact(page, "pigments", string.Join(", ", paint.Pigments));
        Fact(page, "drops/ml", paint.HasDropsPerMl ? Numerals.UpTo(2, paint.DropsPerMl) : "");
        Fact(page, "ml left", paint.HasMlLeft ? Numerals.UpTo(2, paint.MlLeft) : "");
        Fact(page, "notes", paint.Notes);
        Fact(page, "id", paint.Id);
        page.Remarks(paint.Remarks);
        if (paint.Color is { } seen)
        {
            page.Line();
            page.Line($"  Under {Phrases.Conditions(seen)}; differences are CIEDE2000. Its curves: --json or --csv.");
        }
    }

    private static void Fact(Page page, string name, string value)
    {
        if (value.Length > 0)
        {
            page.Prose(value, 13, $"  {name}");
        }
    }

    private static string Name(Paint paint) => paint.Range.Length > 0 ? $"{paint.Name}  ({paint.Range})" : paint.Name;

    private static string Summary(Paint paint) => paint.Color is { } color
        ? $"{Phrases.Numbers(color)}   {color.Words}, {(paint.Opacity.Length > 0 ? paint.Opacity + ", " : "")}{Phrases.PlusMinus(paint.ExpectedError)}"
        : $"{paint.Kind}, without a colour of its own";
}
