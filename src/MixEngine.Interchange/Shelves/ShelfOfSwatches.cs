namespace MixEngine.Interchange;

/// <summary>A shelf from a file of an instrument: every sample is a paint by the name of what it is of.</summary>
internal static class ShelfOfSwatches
{
    /// <summary>Null, with a fault logged, where two samples are of one name.</summary>
    public static ShelfTable? From(SwatchTable swatches, ImportLog log)
    {
        ShelfRow[] rows =
        [
            .. swatches.Rows.Select(s => new ShelfRow(s.Line, s.Of) { Color = s.Color, Finish = s.Finish, Notes = s.Note }),
        ];
        ShelfTableReader.CheckNames(rows, SwatchColumns.Of.Name, log);
        foreach (ShelfRow row in rows.Where(r => r.Name.Length > ImportLimits.NameCharacters))
        {
            log.Fault(row.Line, SwatchColumns.Of.Name, row.Name, $"at most {ImportLimits.NameCharacters} characters", $"It has {row.Name.Length} characters: shorten it.");
        }
        log.Note("Every sample was taken for a paint by the name of what it is of; the format states no opacity.");
        return log.Failed ? null : new ShelfTable(rows);
    }
}
