namespace MixEngine.Interchange;

/// <summary>Writes tables that <see cref="TableReader"/> reads back identically.</summary>
public static class TableWriter
{
    /// <summary>Writes a painter's own paints.</summary>
    /// <param name="table">What to write.</param>
    /// <param name="stream">Written from where it stands; left open.</param>
    /// <param name="format"><see cref="TableFormat.Csv"/> or <see cref="TableFormat.Xlsx"/>.</param>
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
                Workbook.Write(raw, "shelf", stream, PaintedNames.Of(table));
                break;
            default:
                throw new ArgumentException($"A shelf is written as {TableFormat.Csv} or {TableFormat.Xlsx}, not as {format}.", nameof(format));
        }
    }

    /// <summary>Writes measured swatches.</summary>
    /// <param name="table">What to write.</param>
    /// <param name="stream">Written from where it stands; left open.</param>
    /// <param name="format">Any of them.</param>
    /// <param name="created">The day that CGATS and CxF files name as that of their making; null: that of the latest swatch, or 1970-01-01 where none states its own.</param>
    /// <exception cref="ArgumentException">A text of the table cannot be written (too long, control characters, blanks at its ends).</exception>
    public static void WriteSwatches(SwatchTable table, Stream stream, TableFormat format = TableFormat.Csv, DateOnly? created = null)
    {
        DateOnly day = created ?? table.Rows.Max(r => r.Date) ?? new DateOnly(1970, 1, 1);
        switch (format)
        {
            case TableFormat.Csv:
                CsvTable.Write(SwatchTableWriter.Wide(table), stream);
                break;
            case TableFormat.CsvLong:
                CsvTable.Write(SwatchTableWriter.Long(table), stream);
                break;
            case TableFormat.Xlsx:
                Workbook.Write(SwatchTableWriter.Wide(table), "swatches", stream);
                break;
            case TableFormat.Cgats:
                CgatsWriter.Write(table, stream, day);
                break;
            case TableFormat.Cxf:
                CxfWriter.Write(table, stream, day);
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(format), format, "No such format.");
        }
    }
}
