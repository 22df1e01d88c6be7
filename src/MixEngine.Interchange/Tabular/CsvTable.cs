using CsvHelper;

namespace MixEngine.Interchange;

/// <summary>Delimited text ([RFC4180], and what spreadsheets make of it) to cells and back.</summary>
internal static class CsvTable
{
    private const string Delimiters = "\t;,";

    /// <summary>Reads the heading row; the rows below follow as they are asked for. Null where there is no heading row.</summary>
    public static RawTable? Read(TextBytes bytes, ImportLog log)
    {
        // The first line that is not blank shows the delimiter; "sep=;" is a spreadsheet's way to name it.
        char delimiter;
        int linesBefore = 0;
        using (TextReader peek = bytes.Open())
        {
            string? first = peek.ReadLine();
            for (; first is not null && string.IsNullOrWhiteSpace(first); linesBefore++)
            {
                first = peek.ReadLine();
            }
            if (first is null)
            {
                return null;
            }
            bool named = first.Trim() is ['s', 'e', 'p', '=', _];
            delimiter = named ? first.Trim()[^1] : DelimiterOf(first);
            linesBefore += named ? 1 : 0;
        }

        TextReader text = bytes.Open();
        for (int i = 0; i < linesBefore; i++)
        {
            text.ReadLine();
        }
        IEnumerator<RawRow> rows = Rows(text, delimiter, linesBefore, log).GetEnumerator();
        return rows.MoveNext() ? new RawTable(rows.Current, Rest(rows)) : null;
    }

    /// <summary>Writes comma-delimited UTF-8 without a byte order mark, lines ended by a line feed.</summary>
    public static void Write(RawTable table, Stream stream)
    {
        using CsvWriter csv = CsvWriter.Create(stream, new CsvWriterOptions { NewLine = "\n" }, leaveOpen: true);
        foreach (RawRow row in table.Rows.Prepend(table.Header))
        {
            foreach (Cell cell in row.Cells)
            {
                csv.WriteField(cell.Text);
            }
            csv.EndRecord();
        }
    }

    private static IEnumerable<RawRow> Rest(IEnumerator<RawRow> rows)
    {
        using (rows)
        {
            while (rows.MoveNext())
            {
                yield return rows.Current;
            }
        }
    }

    private static IEnumerable<RawRow> Rows(TextReader text, char delimiter, int linesBefore, ImportLog log)
    {
        using CsvReader csv = CsvReader.Create(text, new CsvReaderOptions
        {
            Separator = delimiter,
            HasHeader = false,
            TrimWhitespace = true,
            TrackLineNumbers = true,
            MalformedData = CsvMalformedDataHandling.Skip,
            OnMalformedRecord = record => log.Fault(linesBefore + (int)record.LineNumber, "quotation marks", record.RawRecord,
                "quotation marks around a whole cell, doubled inside it", RemedyFor(record.Reason)),
        });
        while (csv.Read())
        {
            var cells = new Cell[csv.FieldCount];
            for (int i = 0; i < cells.Length; i++)
            {
                cells[i] = new Cell(PlainText.Tidy(csv.GetString(i)));
            }
            yield return new RawRow(linesBefore + (int)csv.LineNumber, cells);
        }
    }

    private static string RemedyFor(CsvMalformedReason reason) => reason switch
    {
        CsvMalformedReason.UnterminatedQuote => "A quotation mark is opened here and never closed: close or remove it.",
        CsvMalformedReason.TextAfterClosingQuote => "Text follows the closing quotation mark: double the marks that belong to the text.",
        _ => "Remove the quotation mark, or quote the whole cell and double the mark.",
    };

    /// <summary>The delimiter that stands most often outside quotes; a tab before a semicolon before a comma where they tie.</summary>
    private static char DelimiterOf(string line)
    {
        Span<int> counts = stackalloc int[Delimiters.Length];
        bool quoted = false;
        foreach (char c in line)
        {
            quoted ^= c == '"';
            if (!quoted && Delimiters.IndexOf(c) is >= 0 and int known)
            {
                counts[known]++;
            }
        }
        int most = Delimiters.Length - 1;
        for (int i = most - 1; i >= 0; i--)
        {
            most = counts[i] >= counts[most] && counts[i] > 0 ? i : most;
        }
        return Delimiters[most];
    }
}
