namespace MixEngine.Interchange;

/// <summary>The rows of a table that hold something, checked for their shape.</summary>
internal static class TableRows
{
    public static IEnumerable<RowFields> Read(RawTable table, Headings headings, int most, ImportLog log, CancellationToken cancel)
    {
        int count = 0;
        foreach (RawRow row in table.Rows)
        {
            cancel.ThrowIfCancellationRequested();
            if (row.IsBlank)
            {
                continue;
            }
            if (++count > most)
            {
                log.Fault(row.Line, "file", $"more than {most} rows", $"at most {most} rows", "Split the file.");
                yield break;
            }
            if (row.Cells.Skip(headings.Count).Any(c => !c.IsBlank))
            {
                log.Fault(row.Line, "row", $"{row.Cells.Count} cells", $"at most {headings.Count}, as in the heading row",
                    "A decimal comma between commas, or a missing heading? Quote such numbers, or separate the columns by semicolons.");
                continue;
            }
            yield return new RowFields(headings, row, log);
        }
    }
}
