using System.Text;

namespace MixEngine.Interchange;

/// <summary>Collects what is to be said of a file while it is read.</summary>
internal sealed class ImportLog
{
    private const int ValueCharacters = 60;
    private readonly List<ImportFault> _faults = [];
    private readonly List<string> _notes = [];

    public IReadOnlyList<ImportFault> Faults => _faults;

    public IReadOnlyList<string> Notes => _notes;

    public int FaultsNotListed { get; private set; }

    public bool Failed => _faults.Count > 0;

    public void Note(string note) => _notes.Add(note);

    public void Fault(int line, string field, string value, string expected, string remedy)
    {
        if (_faults.Count == ImportLimits.Faults)
        {
            FaultsNotListed++;
            return;
        }
        _faults.Add(new ImportFault(line, Shown(field), Shown(value), Printable(expected), Printable(remedy)));
    }

    public void FileFault(string value, string expected, string remedy) => Fault(0, "file", value, expected, remedy);

    /// <summary>A value as it may be shown anywhere: short, on one line, without control characters.</summary>
    public static string Shown(string value) => Printable(value.Length <= ValueCharacters ? value : value[..(ValueCharacters - 1)] + "\u2026");

    /// <summary>A sentence that quotes the file, without what could control a terminal.</summary>
    private static string Printable(string text)
    {
        var printable = new StringBuilder(text.Length);
        foreach (Rune rune in text.EnumerateRunes())
        {
            printable.Append(Rune.IsControl(rune) ? new Rune(' ') : rune);
        }
        return printable.ToString();
    }
}
