using MixEngine.Colorimetry;

namespace MixEngine.Interchange;

/// <summary>From rows of cells to a shelf.</summary>
internal static class ShelfTableReader
{
    public static ShelfTable? Read(RawTable raw, ReadOptions options, ImportLog log, CancellationToken cancel)
    {
        Headings headings = Headings.Read(raw.Header, ShelfColumns.All, log);
        CheckHeadings(headings, raw.Header, log);
        if (log.Failed)
        {
            return null;
        }

        // Every row on its own first: the scale of spectra is a matter of the whole table.
        var colors = new ColorDrafts(options, options.Condition ?? ViewingCondition.Default, log);
        var color = new ColorFields(headings, colors, TableDefaults.None);
        var drafts = new List<(ShelfRow Row, ColorDraft? Color)>();
        foreach (RowFields fields in TableRows.Read(raw, headings, ImportLimits.Rows, log, cancel))
        {
            drafts.Add((RowOf(fields), color.Read(fields)));
            CheckColor(fields, drafts[^1].Row);
        }
        CheckNames(drafts.Select(d => d.Row), headings.NameOf(ShelfColumns.Name), log);
        colors.Decide();

        ShelfRow[] rows = [.. drafts.Select(d => d.Row with { Color = d.Color is null ? null : colors.Finish(d.Color) })];
        colors.NoteGrids();
        if (rows.Count(r => r.Kind == StatedKind.Paint && r.Opacity is null) is > 0 and int unsaid)
        {
            log.Note($"{Counted.Of(unsaid, "paint states", "paints state")} no opacity: how well {(unsaid == 1 ? "it hides" : "they hide")} is only guessed.");
        }
        if (rows.Length == 0)
        {
            log.Note("The table has no rows.");
        }
        return log.Failed ? null : new ShelfTable(rows);
    }

    private static ShelfRow RowOf(RowFields fields) => new(fields.Line, fields.Name(ShelfColumns.Name))
    {
        Opacity = fields.Word(ShelfColumns.Opacity, StatedOpacities.Words),
        Range = fields.Name(ShelfColumns.Range),
        Kind = fields.Word(ShelfColumns.Kind, StatedKinds.Words) ?? StatedKind.Paint,
        Finish = fields.Word(ShelfColumns.Finish, StatedFinishes.Words),
        DropsPerMl = fields.Number(ShelfColumns.DropsPerMl, 1, 200, "drops to the millilitre"),
        MlLeft = fields.Number(ShelfColumns.MlLeft, 0, 100_000, "millilitres"),
        Pigments = PigmentsOf(fields),
        Notes = fields.Notes(ShelfColumns.Notes),
    };

    private static IReadOnlyList<string> PigmentsOf(RowFields fields)
    {
        IReadOnlyList<string>? names = PigmentNames.Read(fields[ShelfColumns.Pigments].Text);
        if (names is null)
        {
            fields.Fault(ShelfColumns.Pigments, "Colour Index names such as PW6 PBk7", "Leave out what is no Colour Index name, or put it into the notes.");
        }
        return names ?? [];
    }

    private static void CheckHeadings(Headings headings, RawRow header, ImportLog log)
    {
        if (!headings.Has(ShelfColumns.Name))
        {
            log.Fault(header.Line, ShelfColumns.Name.Name, string.Join(", ", header.Cells.Select(c => c.Text)),
                "a heading row with a column \"name\"", "Begin the table with headings such as name,hex,opacity.");
        }
        ColorFields.CheckHeadings(headings, header, log);
    }

    private static void CheckColor(RowFields fields, ShelfRow row)
    {
        if (row.Kind == StatedKind.Paint && ColorFields.StatesNone(fields))
        {
            fields.Log.Fault(fields.Line, "colour", "", "a hex, a Lab or a spectrum", "Give the paint's colour; a medium or water needs none, but says so in a column \"kind\".");
        }
    }

    /// <summary>Every paint has a name, and no two the same but for case and blanks.</summary>
    public static void CheckNames(IEnumerable<ShelfRow> rows, string heading, ImportLog log)
    {
        var lines = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
        foreach (ShelfRow row in rows)
        {
            string plain = string.Join(' ', row.Name.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
            if (plain.Length == 0)
            {
                log.Fault(row.Line, heading, "", "a name", "Name the paint.");
            }
            else if (!lines.TryAdd(plain, row.Line))
            {
                log.Fault(row.Line, heading, row.Name, "every name once",
                    $"Line {lines[plain]} has the same name: remove one, or tell them apart (add the range to the name).");
            }
        }
    }
}
