using System.Globalization;
using CsvHelper;
using MixEngine.Core;
using SpreadCheetah;
using SpreadCheetah.Styling;

namespace MixEngine.Reports;

/// <summary>A plan as files: pages to paint from, pictures, and tables.</summary>
public static class SchemeFiles
{
    /// <summary>The formats that can be asked for.</summary>
    public static IReadOnlyList<string> Formats { get; } = ["html", "pdf", "png", "xlsx", "csv"];

    /// <summary>Writes the files one after the other.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="formats">Some of <see cref="Formats"/>.</param>
    /// <param name="made">The moment that the files say they were made.</param>
    /// <param name="elsewhere">The same from another shelf, to be put beside it; null: not asked for.</param>
    public static IEnumerable<ReportFile> Write(SchemePlan plan, IReadOnlyCollection<string> formats, DateTimeOffset made, SchemeComparison? elsewhere = null)
    {
        var book = CardBook.Of(plan);
        if (formats.Contains("html"))
        {
            yield return new ReportFile("cards.html", System.Text.Encoding.UTF8.GetBytes(HtmlCards.Write(book, plan, elsewhere)));
        }

        if (formats.Contains("pdf"))
        {
            yield return new ReportFile("cards.pdf", PdfCards.Write(book, plan, made, elsewhere));
        }

        foreach (var figure in formats.Contains("png") ? book.Figures : [])
        {
            yield return new ReportFile($"strips/{FileName(figure)}.png", StripPicture.Draw(figure));
        }

        IReadOnlyList<SchemeTable> tables = [.. SchemeTable.Of(book, plan), .. elsewhere is null ? Array.Empty<SchemeTable>() : [SchemeTable.Of(elsewhere)]];
        if (formats.Contains("xlsx"))
        {
            yield return new ReportFile("scheme.xlsx", Workbook(tables).GetAwaiter().GetResult());
        }

        foreach (var table in formats.Contains("csv") ? tables : [])
        {
            yield return new ReportFile($"tables/{table.Name.Replace(' ', '-')}.csv", Csv(table));
        }
    }

    private static string FileName(FigureCard figure)
    {
        var name = string.Concat(figure.Name.ToLowerInvariant().Select(c => char.IsAsciiLetterOrDigit(c) ? c : '-')).Trim('-');
        return string.Create(CultureInfo.InvariantCulture, $"{figure.Number:00}-{(name.Length > 0 ? name[..Math.Min(40, name.Length)] : "figure")}");
    }

    private static byte[] Csv(SchemeTable table)
    {
        using var stream = new MemoryStream();
        using (var csv = CsvWriter.Create(stream, new CsvWriterOptions { NewLine = "\n" }, leaveOpen: true))
        {
            foreach (var row in table.Rows.Prepend(table.Columns))
            {
                foreach (var cell in row)
                {
                    csv.WriteField(TextOf(cell));
                }

                csv.EndRecord();
            }
        }

        return stream.ToArray();
    }

    // A spreadsheet would take a name such as "=rust" for a formula: an apostrophe keeps it text.
    private static string TextOf(object? cell) => cell switch
    {
        null => "",
        string { Length: > 0 } text when text[0] is '=' or '+' or '-' or '@' => "'" + text,
        IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
        _ => cell.ToString() ?? "",
    };

    private static async Task<byte[]> Workbook(IReadOnlyList<SchemeTable> tables)
    {
        using var stream = new MemoryStream();
        await using (var book = await Spreadsheet.CreateNewAsync(stream))
        {
            var heading = book.AddStyle(new Style { Font = { Bold = true } });
            foreach (var table in tables)
            {
                await book.StartWorksheetAsync(table.Name);
                await book.AddRowAsync([.. table.Columns.Select(column => new Cell(column, heading))]);
                foreach (var row in table.Rows)
                {
                    await book.AddRowAsync([.. row.Select(CellOf)]);
                }
            }

            await book.FinishAsync();
        }

        return stream.ToArray();
    }

    private static Cell CellOf(object? value) => value switch
    {
        null => new Cell((string?)null),
        int number => new Cell(number),
        double number => new Cell(number),
        _ => new Cell(value.ToString()),
    };
}
