using System.Globalization;
using System.Text.RegularExpressions;

namespace MixEngine.Interchange;

/// <summary>Which column of a table holds what.</summary>
internal sealed partial class Headings
{
    private readonly Dictionary<Column, int> _places = [];
    private readonly RawRow _header;

    private Headings(RawRow header) => _header = header;

    /// <summary>Columns that hold one band of a spectrum each, by ascending wavelength.</summary>
    public IReadOnlyList<(int Place, double WavelengthNm)> Bands { get; private set; } = [];

    public int Count => _header.Cells.Count;

    public int? PlaceOf(Column column) => _places.TryGetValue(column, out int place) ? place : null;

    public bool Has(Column column) => _places.ContainsKey(column);

    /// <summary>The heading as the file writes it; our own name for a column the file lacks.</summary>
    public string NameOf(Column column) => PlaceOf(column) is { } place ? _header.Cells[place].Text : column.Name;

    public static Headings Read(RawRow header, IReadOnlyList<Column> known, ImportLog log)
    {
        var headings = new Headings(header);
        string[] keys = [.. header.Cells.Select(c => Column.KeyOf(c.Text))];
        var taken = new HashSet<int>();

        // The same heading twice: nobody can know which of the two is meant.
        foreach (var twins in keys.Select((key, place) => (key, place)).Where(k => k.key.Length > 0).GroupBy(k => k.key).Where(g => g.Count() > 1))
        {
            log.Fault(header.Line, header.Cells[twins.First().place].Text, header.Cells[twins.First().place].Text,
                "each heading once", $"Columns {string.Join(" and ", twins.Select(t => t.place + 1))} have this heading: rename or remove all but one.");
            taken.UnionWith(twins.Select(t => t.place));
        }

        headings.TakeBands(keys, taken, log);
        var ignored = new List<string>();
        foreach (Column column in known)
        {
            int[] places = [.. Enumerable.Range(0, keys.Length).Where(i => !taken.Contains(i) && column.Answers(keys[i]))];
            if (places.Length == 0)
            {
                continue;
            }
            // Our own heading wins over those that only mean the same.
            int place = places.FirstOrDefault(i => keys[i] == column.Key, -1);
            if (place < 0 && places.Length > 1)
            {
                log.Fault(header.Line, header.Cells[places[0]].Text, string.Join(", ", places.Select(i => header.Cells[i].Text)),
                    $"one column for {column.Name}", $"These headings mean the same: rename the right one to {column.Name}.");
            }
            taken.UnionWith(places);
            headings._places[column] = place < 0 ? places[0] : place;
            ignored.AddRange(places.Where(i => place >= 0 && i != place).Select(i => header.Cells[i].Text));
        }

        ignored.AddRange(Enumerable.Range(0, keys.Length).Where(i => !taken.Contains(i) && keys[i].Length > 0).Select(i => header.Cells[i].Text));
        if (ignored.Count > 0)
        {
            log.Note($"Ignored {(ignored.Count == 1 ? "the column" : "the columns")} {string.Join(", ", ignored.Take(20).Select(ImportLog.Shown))}{(ignored.Count > 20 ? $" and {ignored.Count - 20} more" : "")}.");
        }
        return headings;
    }

    private void TakeBands(string[] keys, HashSet<int> taken, ImportLog log)
    {
        var bands = new List<(int Place, double WavelengthNm)>();
        for (int i = 0; i < keys.Length; i++)
        {
            if (!taken.Contains(i) && BandHeading().Match(keys[i]) is { Success: true } match)
            {
                double nm = double.Parse(match.Groups["nm"].ValueSpan, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);
                taken.Add(i);
                if (bands.FindIndex(b => b.WavelengthNm == nm) is >= 0 and int other)
                {
                    log.Fault(_header.Line, _header.Cells[i].Text, _header.Cells[i].Text, "each wavelength once",
                        $"Columns {bands[other].Place + 1} and {i + 1} both hold {NumberText.Write(nm)} nm: remove one.");
                    continue;
                }
                bands.Add((i, nm));
            }
        }
        Bands = [.. bands.OrderBy(b => b.WavelengthNm)];
        if (bands.Count > 0 && SpectrumReading.GridFault([.. Bands.Select(b => b.WavelengthNm)]) is { } fault)
        {
            log.Fault(_header.Line, "wavelength columns", string.Join(" ", bands.Select(b => _header.Cells[b.Place].Text)), "a spectrum of the visible range", fault);
            Bands = [];
        }
    }

    /// <summary>"400", "R400", "nm400", "400 nm", "SPECTRAL_NM_400", "SPEC_400", with a fraction of a nanometre or not; 100 to 9999 nm.</summary>
    [GeneratedRegex(@"^(r|nm|rnm|spectral|spectralnm|spectralpct|spectraldec|spec|snm|reflectance|refl|lambda|wl|wavelength)?(?<nm>[1-9]\d{2,3}(\.\d+)?)(nm)?$", RegexOptions.CultureInvariant)]
    private static partial Regex BandHeading();
}
