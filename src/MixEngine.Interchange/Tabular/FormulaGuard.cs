namespace MixEngine.Interchange;

/// <summary>
/// Keeps a spreadsheet from taking a name such as "=rust" for a formula: such text is written with an apostrophe before it,
/// the spreadsheets' own mark for text, and read without it.
/// </summary>
internal static class FormulaGuard
{
    public static string Close(string text) => text.Length > 0 && (IsLead(text[0]) || IsClosed(text)) ? "'" + text : text;

    public static string Open(string text) => IsClosed(text) ? text[1..] : text;

    private static bool IsClosed(string text) => text.Length > 1 && text[0] == '\'' && (IsLead(text[1]) || text[1] == '\'');

    private static bool IsLead(char c) => c is '=' or '+' or '-' or '@';
}
