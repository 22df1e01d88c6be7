namespace MixEngine.Interchange;

/// <summary>From a shelf to rows of cells that <see cref="ShelfTableReader"/> reads back identically.</summary>
internal static class ShelfTableWriter
{
    public static RawTable Write(ShelfTable table)
    {
        var colors = new ColorCells([.. table.Rows.Select(r => r.Color)]);
        Column[] after = [ShelfColumns.Opacity, ShelfColumns.Range, ShelfColumns.Kind, ShelfColumns.Finish, ShelfColumns.DropsPerMl, ShelfColumns.MlLeft, ShelfColumns.Pigments, ShelfColumns.Notes];
        Cell[] header = [new(ShelfColumns.Name.Name), .. colors.Headings, .. after.Select(c => new Cell(c.Name)), .. colors.BandHeadings];
        return new RawTable(new RawRow(1, header), table.Rows.Select((row, i) => new RawRow(i + 2, CellsOf(row, colors))));
    }

    private static Cell[] CellsOf(ShelfRow row, ColorCells colors) =>
    [
        WrittenText.Name(row.Name, row.Name),
        .. colors.Of(row.Color),
        new(row.Opacity is { } opacity ? StatedOpacities.Words.WordFor(opacity) : ""),
        WrittenText.Name(row.Range, row.Name),
        new(StatedKinds.Words.WordFor(row.Kind)),
        new(row.Finish is { } finish ? StatedFinishes.Words.WordFor(finish) : ""),
        Cell.Of(row.DropsPerMl),
        Cell.Of(row.MlLeft),
        new(string.Join(' ', row.Pigments)),
        WrittenText.Notes(row.Notes, row.Name),
        .. colors.BandsOf(row.Color),
    ];
}
