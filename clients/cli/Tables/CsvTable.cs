namespace MixEngine.Cli.Tables;

/// <summary>A table for a script or a spreadsheet: a header row, quoting as in RFC 4180, a point before decimals.</summary>
internal sealed class CsvTable(params string[] header)
{
    private readonly List<string[]> _rows = [];

    /// <summary>One row. A cell is text, a number or nothing.</summary>
    public void Add(params string[] cells)
    {
        if (cells.Length != header.Length)
        {
            throw new ArgumentException($"A row of {cells.Length} cells under a header of {header.Length}.", nameof(cells));
        }
        _rows.Add(cells);
    }

    public void Write(TextWriter output)
    {
        foreach (string[] row in _rows.Prepend(header))
        {
            output.Write(string.Join(',', row.Select(Quoted)));
            output.Write('\n');
        }
    }

    private static string Quoted(string cell) =>
        cell.AsSpan().IndexOfAny(",\"\r\n") < 0 && cell == cell.Trim() ? cell : "\"" + cell.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"";
}
