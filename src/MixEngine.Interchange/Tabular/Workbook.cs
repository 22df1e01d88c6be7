using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.RegularExpressions;
using System.Xml;
using ExcelDataReader;
using ExcelDataReader.Exceptions;
using MixEngine.Colorimetry;
using SpreadCheetah;
using SpreadCheetah.Styling;

namespace MixEngine.Interchange;

/// <summary>Office Open XML workbooks [ISO29500] to cells and back.</summary>
internal static partial class Workbook
{
    private const int MostCells = 20_000_000;

    // The library asks for Windows-1252 by name even where it reads none; it adds encodings, and changes none.
    static Workbook() => Encoding.RegisterProvider(CodePagesEncodingProvider.Instance);

    /// <summary>Reads the first worksheet that holds something; null, with a fault logged, where there is none.</summary>
    public static RawTable? Read(ArraySegment<byte> bytes, ImportLog log, CancellationToken cancel)
    {
        try
        {
            return Unpacks(bytes, log, cancel) ? ReadSheets(bytes, log, cancel) : null;
        }
        catch (Exception e) when (e is ExcelReaderException or InvalidDataException or XmlException or IOException or FormatException or OverflowException
            or ArgumentException or InvalidOperationException or IndexOutOfRangeException or NullReferenceException or NotSupportedException or KeyNotFoundException)
        {
            // What the library throws where a part of the workbook is missing or is not what it should be.
            log.FileFault(e.Message, "a whole workbook", "The workbook is damaged: open it in a spreadsheet, save it again, or save it as CSV.");
            return null;
        }
    }

    /// <summary>Writes one worksheet.</summary>
    /// <param name="table">What to write.</param>
    /// <param name="sheetName">The worksheet's name.</param>
    /// <param name="stream">Written from where it stands; left open.</param>
    /// <param name="grounds">Where given, the colour on which the first cell of each row stands; null for none.</param>
    public static void Write(RawTable table, string sheetName, Stream stream, IReadOnlyList<HexColor?>? grounds = null)
    {
        // The library writes asynchronously; into memory it never waits.
        using var memory = new MemoryStream();
        WriteAsync(table, sheetName, memory, grounds ?? []).GetAwaiter().GetResult();
        memory.Position = 0;
        memory.CopyTo(stream);
    }

    private static async Task WriteAsync(RawTable table, string sheetName, Stream stream, IReadOnlyList<HexColor?> grounds)
    {
        await using Spreadsheet sheet = await Spreadsheet.CreateNewAsync(stream);
        await sheet.StartWorksheetAsync(sheetName);
        await sheet.AddRowAsync(table.Header.Cells.Select(DataCellOf).ToArray());
        var styles = grounds.OfType<HexColor>().Distinct().ToDictionary(ground => ground, ground => sheet.AddStyle(Painted(ground)));
        foreach (var (i, row) in table.Rows.Index())
        {
            StyleId? painted = i < grounds.Count && grounds[i] is { } ground ? styles[ground] : null;
            await sheet.AddRowAsync(row.Cells.Select((cell, column) => new StyledCell(DataCellOf(cell), column == 0 ? painted : null)).ToArray());
        }
        await sheet.FinishAsync();
    }

    private static Style Painted(HexColor ground) => new() { Fill = { Color = ColorOf(ground) }, Font = { Color = ColorOf(PaintedNames.TextOn(ground)) } };

    private static System.Drawing.Color ColorOf(HexColor color) => System.Drawing.Color.FromArgb(color.R, color.G, color.B);

    private static DataCell DataCellOf(Cell cell) =>
        cell.IsBlank ? default
        : cell.Kind == CellKind.Number ? new DataCell(double.Parse(cell.Text, CultureInfo.InvariantCulture))
        : new DataCell(EscapeMark().Replace(cell.Text, "_x005F_"));

    /// <summary>Unpacks once for nothing, so that a small file cannot grow beyond bounds inside the library.</summary>
    private static bool Unpacks(ArraySegment<byte> bytes, ImportLog log, CancellationToken cancel)
    {
        using var archive = new ZipArchive(StreamOf(bytes), ZipArchiveMode.Read);
        if (archive.GetEntry("[Content_Types].xml") is null)
        {
            log.FileFault("an archive of another kind", "a workbook in .xlsx form", "Open it in a spreadsheet and save it as .xlsx, or as CSV.");
            return false;
        }
        var buffer = new byte[81920];
        long unpacked = 0;
        foreach (ZipArchiveEntry entry in archive.Entries)
        {
            using Stream part = entry.Open();
            for (int read; (read = part.Read(buffer)) > 0;)
            {
                cancel.ThrowIfCancellationRequested();
                if ((unpacked += read) > ImportLimits.UnpackedBytes)
                {
                    log.FileFault($"more than {ImportLimits.UnpackedBytes} bytes unpacked", $"at most {ImportLimits.UnpackedBytes} bytes", "Split the workbook.");
                    return false;
                }
            }
        }
        return true;
    }

    private static RawTable? ReadSheets(ArraySegment<byte> bytes, ImportLog log, CancellationToken cancel)
    {
        using IExcelDataReader reader = ExcelReaderFactory.CreateOpenXmlReader(StreamOf(bytes));
        RawTable? table = null;
        var others = new List<string>();
        string name = "";
        do
        {
            if (table is not null)
            {
                others.Add(reader.Name);
                continue;
            }
            name = reader.Name;
            List<RawRow>? rows = RowsOf(reader, log, cancel);
            if (rows is null)
            {
                return null;
            }
            table = rows.Count > 0 ? new RawTable(rows[0], rows.Skip(1)) : null;
        }
        while (reader.NextResult());
        if (table is not null && others.Count > 0)
        {
            log.Note($"Read the worksheet {ImportLog.Shown(name)}; left out {string.Join(", ", others.Take(10).Select(ImportLog.Shown))}.");
        }
        return table;
    }

    /// <summary>The rows that hold something; null, with a fault logged, when there are too many.</summary>
    private static List<RawRow>? RowsOf(IExcelDataReader reader, ImportLog log, CancellationToken cancel)
    {
        if (reader.FieldCount > ImportLimits.Columns)
        {
            log.FileFault($"{reader.FieldCount} columns", $"at most {ImportLimits.Columns} columns", "Remove the columns that hold nothing of the table.");
            return null;
        }
        var rows = new List<RawRow>();
        long cells = 0;
        while (reader.Read())
        {
            cancel.ThrowIfCancellationRequested();
            if ((cells += reader.FieldCount) > MostCells)
            {
                log.Fault(reader.Depth + 1, "file", $"more than {MostCells} cells", $"at most {MostCells} cells", "Split the workbook, or remove its empty rows and columns.");
                return null;
            }
            var row = new RawRow(reader.Depth + 1, CellsOf(reader));
            if (!row.IsBlank)
            {
                rows.Add(row);
            }
        }
        return rows;
    }

    private static Cell[] CellsOf(IExcelDataReader reader)
    {
        var cells = new Cell[reader.FieldCount];
        for (int i = 0; i < cells.Length; i++)
        {
            cells[i] = reader.GetValue(i) switch
            {
                null => Cell.Blank,
                string text => new Cell(PlainText.Tidy(text)),
                double number => Cell.Of(number),
                int number => Cell.Of(number),
                DateTime date => new Cell(date.ToString(date.TimeOfDay == TimeSpan.Zero ? "yyyy-MM-dd" : "s", CultureInfo.InvariantCulture), CellKind.Date),
                TimeSpan time => new Cell(time.ToString("c", CultureInfo.InvariantCulture), CellKind.Date),
                var other => new Cell(Convert.ToString(other, CultureInfo.InvariantCulture) ?? ""),
            };
        }
        return cells;
    }

    /// <summary>Where a text would be read as the escape of a character, such as _x0041_ for A ([ISO29500], ST_Xstring).</summary>
    [GeneratedRegex("_(?=x[0-9A-Fa-f]{4}_)", RegexOptions.CultureInvariant)]
    private static partial Regex EscapeMark();

    private static MemoryStream StreamOf(ArraySegment<byte> bytes) => new(bytes.Array!, bytes.Offset, bytes.Count, writable: false);
}
