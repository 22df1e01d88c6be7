namespace MixEngine.Interchange;

/// <summary>Reads what a row says of its swatch besides the colour.</summary>
internal static class SwatchFields
{
    /// <summary>A table must name its samples, or what they are of.</summary>
    public static void CheckHeadings(Headings headings, RawRow header, ImportLog log)
    {
        if (!headings.Has(SwatchColumns.SampleId) && !headings.Has(SwatchColumns.Of))
        {
            log.Fault(header.Line, SwatchColumns.SampleId.Name, string.Join(", ", header.Cells.Select(c => c.Text)),
                "a heading row with a column \"sample_id\" or \"of\"", "Begin the table with headings such as sample_id,of,hex.");
        }
        else if (!headings.Has(SwatchColumns.SampleId))
        {
            log.Note("There is no column of sample ids: the rows are numbered.");
        }
        else if (!headings.Has(SwatchColumns.Of))
        {
            log.Note("There is no column \"of\": each sample's id is taken for what was painted.");
        }
    }

    /// <summary>The swatch without its colour. <paramref name="number"/> is its id where the table has none.</summary>
    public static SwatchRow Read(RowFields row, int number, TableDefaults defaults)
    {
        string id = row.Headings.Has(SwatchColumns.SampleId) ? row.Name(SwatchColumns.SampleId) : NumberText.Write(number);
        if (id.Length == 0)
        {
            row.Fault(SwatchColumns.SampleId, "an id", "Give every sample an id of its own.");
        }
        string of = row.Headings.Has(SwatchColumns.Of) ? row.Recipe(SwatchColumns.Of) : id;
        if (of.Length == 0)
        {
            row.Fault(SwatchColumns.Of, "a paint or a recipe", "Say what was painted, such as 2 tarred rope + 1 kelp.");
        }
        double? coats = row.Number(SwatchColumns.Coats, 1, 100, "whole coats");
        if (coats is { } c && c != Math.Round(c))
        {
            row.Fault(SwatchColumns.Coats, "whole coats, 1 to 100", "Write a whole number, or leave the cell blank.");
        }
        SwatchBacking? backing = SwatchBacking.TryParse(row[SwatchColumns.Backing].Text);
        row.Require(SwatchColumns.Backing, backing is not null, "none, black, white, a hex, a Lab such as lab:40,-12,20 or another sample such as sample:card 3");
        DateOnly? date = DateText.TryRead(row[SwatchColumns.Date].Text);
        row.Require(SwatchColumns.Date, date is not null, "a date as year-month-day, such as 2024-05-03");
        return new SwatchRow(row.Line, id, of, SwatchDrafts.Pending)
        {
            Film = row.Name(SwatchColumns.Film),
            Coats = (int?)coats,
            ThicknessUm = row.Number(SwatchColumns.ThicknessUm, 0.001, 10_000, "micrometres"),
            Backing = backing ?? defaults.Backing,
            Dosing = row.Word(SwatchColumns.Dosing, StatedDosings.Words),
            Finish = row.Word(SwatchColumns.Finish, StatedFinishes.Words),
            Specular = row.Word(SwatchColumns.Specular, SpecularModes.Words) ?? defaults.Specular,
            Source = row.Word(SwatchColumns.Source, SwatchSources.Words) ?? (row.Headings.Has(SwatchColumns.Source) ? null : defaults.Source),
            Date = date,
            Note = row.Notes(SwatchColumns.Note),
        };
    }
}
