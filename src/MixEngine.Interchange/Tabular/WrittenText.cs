namespace MixEngine.Interchange;

/// <summary>Text on its way out: only what would be read back as it is.</summary>
internal static class WrittenText
{
    public static Cell Name(string text, string row) => Checked(text, row, ImportLimits.NameCharacters, oneLine: true);

    public static Cell Recipe(string text, string row) => Checked(text, row, ImportLimits.RecipeCharacters, oneLine: true);

    public static Cell Notes(string text, string row) => Checked(text, row, ImportLimits.CellCharacters, oneLine: false);

    private static Cell Checked(string text, string row, int most, bool oneLine)
    {
        if (text.Length > most || PlainText.Tidy(text) != text || PlainText.Illegal(text, oneLine) is not null)
        {
            throw new ArgumentException(
                $"\"{ImportLog.Shown(text)}\" of \"{ImportLog.Shown(row)}\" cannot be written: at most {most} characters, no control characters, nothing blank at either end.");
        }
        return new Cell(FormulaGuard.Close(text));
    }
}
