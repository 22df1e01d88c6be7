namespace MixEngine.Interchange;

/// <summary>From swatches to rows of cells that <see cref="SwatchTableReader"/> reads back identically.</summary>
internal static class SwatchTableWriter
{
    /// <summary>One row for each swatch, one column for each band.</summary>
    public static RawTable Wide(SwatchTable table)
    {
        var colors = new ColorCells([.. table.Rows.Select(r => r.Color)]);
        Cell[] header = [.. DescribedHeadings, .. colors.Headings, .. colors.BandHeadings];
        return new RawTable(new RawRow(1, header),
            table.Rows.Select((row, i) => new RawRow(i + 2, [.. Described(row), .. colors.Of(row.Color), .. colors.BandsOf(row.Color)])));
    }

    /// <summary>One row for each swatch and band; only the first row of a swatch describes it.</summary>
    public static RawTable Long(SwatchTable table)
    {
        var colors = new ColorCells([.. table.Rows.Select(r => r.Color)]);
        Cell[] header = [.. DescribedHeadings, .. colors.Headings, new(SwatchColumns.Nm.Name), new(SwatchColumns.Value.Name)];
        return new RawTable(new RawRow(1, header), table.Rows.SelectMany(row => LongRows(row, colors, header.Length)));
    }

    /// <summary>What a swatch is, besides its colour, under <see cref="DescribedHeadings"/>.</summary>
    public static Cell[] Described(SwatchRow row) =>
    [
        WrittenText.Name(row.SampleId, row.SampleId),
        WrittenText.Recipe(row.Of, row.SampleId),
        WrittenText.Name(row.Film, row.SampleId),
        Cell.Of(row.Coats),
        Cell.Of(row.ThicknessUm),
        new(row.Backing?.ToString() ?? ""),
        new(row.Dosing is { } dosing ? StatedDosings.Words.WordFor(dosing) : ""),
        new(row.Finish is { } finish ? StatedFinishes.Words.WordFor(finish) : ""),
        new(row.Specular == SpecularMode.Unknown ? "" : SpecularModes.Words.WordFor(row.Specular)),
        new(row.Source is { } source ? SwatchSources.Words.WordFor(source) : ""),
        new(row.Date is { } date ? DateText.Write(date) : ""),
        WrittenText.Notes(row.Note, row.SampleId),
    ];

    public static IReadOnlyList<Cell> DescribedHeadings { get; } =
        [.. ((Column[])[SwatchColumns.SampleId, SwatchColumns.Of, .. SwatchColumns.About]).Select(c => new Cell(c.Name))];

    private static IEnumerable<RawRow> LongRows(SwatchRow row, ColorCells colors, int cells)
    {
        Cell[] described = [.. Described(row), .. colors.Of(row.Color)];
        if (row.Color is not SpectrumReading spectrum)
        {
            yield return new RawRow(0, [.. described, Cell.Blank, Cell.Blank]);
            yield break;
        }
        Cell[] blank = new Cell[cells - 2];
        Array.Fill(blank, Cell.Blank);
        blank[0] = described[0];
        for (int i = 0; i < spectrum.WavelengthsNm.Count; i++)
        {
            yield return new RawRow(0, [.. i == 0 ? described : blank, Cell.Of(spectrum.WavelengthsNm[i]), Cell.Of(spectrum.Factors[i])]);
        }
    }
}
