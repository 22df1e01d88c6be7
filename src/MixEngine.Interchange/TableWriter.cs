namespace MixEngine.Interchange;

/// <summary>Writes tables that <see cref="TableReader"/> reads back identically.</summary>
public static class TableWriter
{
    /// <summary>Writes a painter's own paints.</summary>
    /// <exception cref="ArgumentException">The format is not one for shelves, or a text of the table cannot be written (too long, control characters, blanks at its ends).</exception>
    public static void WriteShelf(ShelfTable table, Stream stream, TableFormat format = TableFormat.Csv)
    {
        RawTable raw = ShelfTableWriter.Write(table);
        switch (format)
        {
            case TableFormat.Csv:
                CsvTable.Write(raw, stream);
                break;
            case TableFormat.Xlsx:
                Workbook.Write(raw, "shelf", stream);
                break;
            default:
                throw new ArgumentException($"A shelf is written as {TableFormat.Csv} or {TableFormat.Xlsx}, not as {format}.", nameof(format));
        }
    }
}
