namespace MixEngine.Interchange;

/// <summary>What a cell held before anyone asked what it means.</summary>
internal enum CellKind
{
    Text,
    Number,
    Date,
}

/// <summary>One cell. A number or a date of a worksheet stands here as invariant text, with its kind, so that a column of text can tell what a spreadsheet has made of it.</summary>
internal readonly record struct Cell(string Text, CellKind Kind = CellKind.Text)
{
    public static readonly Cell Blank = new("");

    public bool IsBlank => Text.Length == 0;

    public static Cell Of(double number) => new(NumberText.Write(number), CellKind.Number);

    public static Cell Of(double? number) => number is { } n ? Of(n) : Blank;
}

/// <summary>One row of cells and the line (or worksheet row) it began on.</summary>
internal readonly record struct RawRow(int Line, IReadOnlyList<Cell> Cells)
{
    public bool IsBlank
    {
        get
        {
            foreach (Cell cell in Cells)
            {
                if (!cell.IsBlank)
                {
                    return false;
                }
            }
            return true;
        }
    }
}

/// <summary>A heading row and the rows below it, read once, as they come.</summary>
internal sealed record RawTable(RawRow Header, IEnumerable<RawRow> Rows);
