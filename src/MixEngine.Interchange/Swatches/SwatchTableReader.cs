namespace MixEngine.Interchange;

/// <summary>From rows of cells to swatches: one row each, or one row for each of their bands.</summary>
internal static class SwatchTableReader
{
    /// <summary>Adds the swatches of one table to those of its file.</summary>
    public static void Read(RawTable raw, TableDefaults defaults, SwatchDrafts drafts, ImportLog log, CancellationToken cancel)
    {
        Headings headings = Headings.Read(raw.Header, SwatchColumns.All, log);
        bool longForm = headings.Has(SwatchColumns.Nm) && headings.Has(SwatchColumns.Value) && headings.Bands.Count == 0;
        SwatchFields.CheckHeadings(headings, raw.Header, log);
        if (!longForm)
        {
            ColorFields.CheckHeadings(headings, raw.Header, log);
        }
        if (log.Failed)
        {
            return;
        }
        var color = new ColorFields(headings, drafts.Colors, defaults);
        if (longForm)
        {
            LongSwatches.Read(raw, headings, color, defaults, drafts, log, cancel);
            return;
        }
        int number = 0;
        foreach (RowFields row in TableRows.Read(raw, headings, ImportLimits.Rows, log, cancel))
        {
            SwatchRow swatch = SwatchFields.Read(row, ++number, defaults);
            if (color.Read(row) is { } draft)
            {
                drafts.Add(swatch, draft);
            }
            else if (ColorFields.StatesNone(row))
            {
                log.Fault(row.Line, "colour", "", "a spectrum, a Lab, an XYZ or a hex", "Give the colour that was measured, or leave the row out.");
            }
        }
    }
}
