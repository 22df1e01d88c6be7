namespace MixEngine.Interchange;

/// <summary>The fields of one row, each asked for by its column; what is wrong with one goes to the log.</summary>
internal sealed class RowFields(Headings headings, RawRow row, ImportLog log)
{
    public int Line => row.Line;

    public Headings Headings => headings;

    public ImportLog Log => log;

    public Cell At(int place) => place < row.Cells.Count ? row.Cells[place] : Cell.Blank;

    public Cell this[Column column] => headings.PlaceOf(column) is { } place ? At(place) : Cell.Blank;

    public bool IsBlank(Column column) => this[column].IsBlank;

    public void Fault(Column column, string expected, string remedy) => log.Fault(Line, headings.NameOf(column), this[column].Text, expected, remedy);

    /// <summary>A name or an id: one line, at most <see cref="ImportLimits.NameCharacters"/> long.</summary>
    public string Name(Column column) => Text(column, ImportLimits.NameCharacters, oneLine: true);

    /// <summary>What was painted: one line, at most <see cref="ImportLimits.RecipeCharacters"/> long.</summary>
    public string Recipe(Column column) => Text(column, ImportLimits.RecipeCharacters, oneLine: true);

    /// <summary>Free text, which may have several lines.</summary>
    public string Notes(Column column) => Text(column, ImportLimits.CellCharacters, oneLine: false);

    /// <summary>A number within bounds, which rounding may pass by <paramref name="slack"/>; null when blank or at fault.</summary>
    public double? Number(Column column, double least, double most, string what, double slack = 0)
    {
        Cell cell = this[column];
        if (cell.IsBlank)
        {
            return null;
        }
        string expected = FormattableString.Invariant($"{what}, {least} to {most}");
        if (cell.Kind == CellKind.Date)
        {
            Fault(column, expected, "A spreadsheet has made a date of it: format the column as number and type it again.");
        }
        else if (!NumberText.TryRead(cell.Text, out double number))
        {
            Fault(column, expected, NumberText.Remedy(cell.Text));
        }
        else if (number < least - slack || number > most + slack)
        {
            Fault(column, expected, "Correct the value, or leave the cell blank.");
        }
        else
        {
            return number;
        }
        return null;
    }

    /// <summary>A word of a vocabulary; null when blank or at fault.</summary>
    public T? Word<T>(Column column, Vocabulary<T> words) where T : struct, Enum
    {
        T? meaning = words.MeaningOf(this[column].Text);
        Require(column, meaning is not null, $"one of {words.Expected}");
        return meaning;
    }

    /// <summary>A cell that holds something must have been understood.</summary>
    public void Require(Column column, bool understood, string expected)
    {
        if (!understood && !IsBlank(column))
        {
            Fault(column, expected, "Write it so, or leave the cell blank.");
        }
    }

    private string Text(Column column, int most, bool oneLine)
    {
        Cell cell = this[column];
        string text = FormulaGuard.Open(cell.Text);
        if (cell.Kind == CellKind.Date)
        {
            Fault(column, "text", "A spreadsheet has made a date of it: format the column as text and type it again.");
        }
        else if (text.Length > most)
        {
            Fault(column, $"at most {most} characters", $"It has {text.Length} characters: shorten it.");
        }
        else if (PlainText.Illegal(text, oneLine) is { } illegal)
        {
            Fault(column, oneLine ? "one line of text without control characters" : "text without control characters", $"Remove the character {illegal}.");
        }
        return text;
    }
}
