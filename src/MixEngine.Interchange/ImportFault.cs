namespace MixEngine.Interchange;

/// <summary>One thing in a file that keeps it from being read, and what to do about it.</summary>
/// <param name="Line">Line of the text file or row of the worksheet, counted from 1. Zero: the file as a whole.</param>
/// <param name="Field">The column, keyword or band, as the file names it; "file" for the file as a whole.</param>
/// <param name="Value">What stands there, shortened when long. Empty: nothing stands there.</param>
/// <param name="Expected">What may stand there.</param>
/// <param name="Remedy">What to do.</param>
public sealed record ImportFault(int Line, string Field, string Value, string Expected, string Remedy)
{
    /// <summary>One sentence for people.</summary>
    public override string ToString()
    {
        string place = Line > 0 ? $"line {Line}, {Field}" : Field;
        string found = Value.Length > 0 ? $"\"{Value}\"" : "nothing";
        return $"{place}: found {found}, expected {Expected}. {Remedy}";
    }
}
