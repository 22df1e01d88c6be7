using System.Globalization;
using System.Text.RegularExpressions;
using static MixEngine.Interchange.CgatsLine;

namespace MixEngine.Interchange;

/// <summary>
/// Reads keyword-value files after CGATS.17 and ISO 28178 [CGATS17]: keywords, a block of field names, a block of data sets, and again for every further table.
/// </summary>
internal sealed partial class CgatsReader(ImportLog log, CancellationToken cancel)
{
    private enum Place { Head, Format, AfterFormat, Data, AfterData }

    private readonly List<CgatsTable> _tables = [];
    private CgatsTable _table = new();
    private Place _place = Place.Head;
    private int _rows;

    /// <summary>Whether a text is such a file: it begins with a keyword in capitals, and a line near its beginning opens the block of fields or of data.</summary>
    public static bool Recognises(TextReader text)
    {
        bool begun = false;
        for (int i = 0; i < 1_000 && text.ReadLine() is { } line; i++)
        {
            // A spreadsheet may have put quotation marks around the line or delimiters behind it.
            string words = line.Trim(' ', '\t', '"', ',', ';');
            if (words.Length == 0 || words[0] == '#')
            {
                continue;
            }
            if (!begun && !FirstKeyword().IsMatch(words))
            {
                return false;
            }
            if (!begun && (words.StartsWith("CGATS.", StringComparison.Ordinal) || words.StartsWith("ISO28178", StringComparison.Ordinal)))
            {
                return true;
            }
            begun = true;
            if (words is "BEGIN_DATA_FORMAT" or "BEGIN_DATA")
            {
                return true;
            }
        }
        return false;
    }

    /// <summary>Reads all tables; faults go to the log.</summary>
    public IReadOnlyList<CgatsTable> Read(TextReader text)
    {
        int number = 0;
        while (text.ReadLine() is { } line && _rows <= ImportLimits.Rows)
        {
            cancel.ThrowIfCancellationRequested();
            number++;
            if (!string.IsNullOrWhiteSpace(line))
            {
                Take(line, number);
            }
        }
        if (_rows > ImportLimits.Rows)
        {
            log.Fault(number, "file", $"more than {ImportLimits.Rows} data sets", $"at most {ImportLimits.Rows} data sets", "Split the file.");
        }
        else if (_place is Place.Format or Place.Data)
        {
            log.Fault(number, _place == Place.Format ? "END_DATA_FORMAT" : "END_DATA", "", "the end of the block before the end of the file", "The file seems to be cut off: export it again.");
        }
        else if (_place != Place.AfterData && !log.Failed)
        {
            log.FileFault("", "BEGIN_DATA_FORMAT and BEGIN_DATA, each with its end", "The file holds no data: export it again.");
        }
        return _tables;
    }

    private void Take(string line, int number)
    {
        List<Word>? words = Words(line);
        string first = words is { Count: > 0 } && !words[0].Quoted ? words[0].Text : "";
        if (words is { Count: 0 })
        {
            return;
        }
        switch (_place)
        {
            case Place.Format when first == "END_DATA_FORMAT":
                _place = Place.AfterFormat;
                CheckCount("NUMBER_OF_FIELDS", _table.Fields.Count, _table.FieldsLine);
                break;
            case Place.Format when words is not null:
                _table.Fields.AddRange(words.Select(w => w.Text));
                break;
            case Place.Data when first == "END_DATA":
                _place = Place.AfterData;
                CheckCount("NUMBER_OF_SETS", _table.Sets.Count, _table.SetsLine);
                _tables.Add(_table);
                break;
            case Place.Data:
                TakeSet(words, line, number);
                break;
            case Place.Head or Place.AfterFormat or Place.AfterData when words is not null && IsKeyword(words[0]):
                TakeKeyword(words, number);
                break;
            default:
                log.Fault(number, "line", line, "a keyword and its value", LikelyCause(line));
                break;
        }
    }

    private void TakeKeyword(List<Word> words, int number)
    {
        if (_place == Place.AfterData)
        {
            // A further table begins; what it does not say of itself holds on.
            CgatsTable before = _table;
            _table = new CgatsTable { FieldsLine = before.FieldsLine };
            _table.Keywords.AddRange(before.Keywords.Where(k => !k.Keyword.StartsWith("NUMBER_OF_", StringComparison.Ordinal)));
            _table.Fields.AddRange(before.Fields);
            _place = Place.Head;
        }
        switch (words[0].Text)
        {
            case "BEGIN_DATA_FORMAT":
                _table.Fields.Clear();
                _table.Fields.AddRange(words.Skip(1).Select(w => w.Text));
                _table.FieldsLine = number;
                _place = Place.Format;
                break;
            case "BEGIN_DATA":
                _table.SetsLine = number;
                _place = Place.Data;
                if (_table.Fields.Count is 0 or > ImportLimits.Columns)
                {
                    log.Fault(number, "BEGIN_DATA", $"{_table.Fields.Count} fields", $"1 to {ImportLimits.Columns} fields named before the data", "Add the block BEGIN_DATA_FORMAT ... END_DATA_FORMAT.");
                }
                break;
            default:
                _table.Keywords.Add((words[0].Text, string.Join(' ', words.Skip(1).Select(w => w.Text)), number));
                break;
        }
    }

    private void TakeSet(List<Word>? words, string line, int number)
    {
        _rows++;
        int fields = _table.Fields.Count;
        // Some programs write names with blanks and no quotation marks, but tabs between the columns.
        if (words?.Count != fields && line.Contains('\t') && TabbedWords(line) is { } tabbed && tabbed.Count == fields)
        {
            words = tabbed;
        }
        if (words is null)
        {
            log.Fault(number, "data set", line, $"{fields} values", LikelyCause(line));
        }
        else if (words.Count != fields)
        {
            string cause = words[0].Quoted || line.Contains(',') && words.Count < fields ? LikelyCause(line)
                : words.Count < fields ? "Values are missing, or the line was broken in two."
                : "There are values too many: put names that hold blanks in quotation marks.";
            log.Fault(number, "data set", $"{words.Count} values: {line.Trim()}", $"{fields} values, as in BEGIN_DATA_FORMAT on line {_table.FieldsLine}", cause);
        }
        else
        {
            _table.Sets.Add(new RawRow(number, [.. words.Select(w => new Cell(PlainText.Tidy(w.Text)))]));
        }
    }

    private void CheckCount(string keyword, int found, int line)
    {
        string declared = _table.Value(keyword);
        if (declared.Length > 0 && !log.Failed && (!int.TryParse(declared, NumberStyles.None, CultureInfo.InvariantCulture, out int count) || count != found))
        {
            log.Fault(line, keyword, declared, $"{found}, as the file holds", "Lines may have been lost or added: restore the file, or correct the number.");
        }
    }

    [GeneratedRegex(@"^[A-Z][A-Z0-9_./-]{2,}(\s|[,;""]|$)", RegexOptions.CultureInvariant)]
    private static partial Regex FirstKeyword();

    private static bool IsKeyword(Word word) =>
        !word.Quoted && char.IsAsciiLetter(word.Text[0]) && !word.Text.AsSpan().ContainsAnyExcept("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_.-/:");
}
