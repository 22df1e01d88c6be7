using System.Globalization;
using System.Text.Json;
using CsCheck;

namespace MixEngine.Interchange.Tests;

/// <summary>Our files in other libraries' eyes, and theirs in ours: Python's csv and ElementTree, openpyxl, Little CMS (cmsIT8).</summary>
public class PeerTests
{
    // A fixed draw: the properties elsewhere range wider, here a process is started for each file.
    private static readonly SwatchTable Swatches = Drawn(Some.SwatchTable.List[40].Select(tables => new SwatchTable(
        [.. tables.SelectMany(t => t.Rows).Select((r, i) => r with { SampleId = $"s{i}", Backing = r.Backing?.SampleId is null ? r.Backing : null })])));

    private static T Drawn<T>(Gen<T> gen)
    {
        T drawn = default!;
        gen.Sample(value => drawn = value, iter: 1, threads: 1, seed: "0000000000001");
        return drawn;
    }

    private static IEnumerable<string[]> Cells(RawTable table) => table.Rows.Prepend(table.Header).Select(r => r.Cells.Select(c => c.Text).ToArray());

    private static string[][] Rows(JsonElement json) => [.. json.EnumerateArray().Select(row => row.EnumerateArray().Select(c => c.ToString()).ToArray())];

    [Fact]
    public void Pythons_csv_reads_our_csv_cell_for_cell()
    {
        Assert.Equal(Cells(SwatchTableWriter.Wide(Swatches)), Rows(Peer.Read("csv-read", Given.Written(Swatches, TableFormat.Csv))));
    }

    [Fact]
    public void Openpyxl_reads_our_workbook_cell_for_cell()
    {
        JsonElement[] read = [.. Peer.Read("xlsx-read", Given.Written(Swatches, TableFormat.Xlsx)).EnumerateArray()];
        RawRow[] written = [.. SwatchTableWriter.Wide(Swatches).Rows.Prepend(SwatchTableWriter.Wide(Swatches).Header)];

        Assert.Equal(written.Length, read.Length);
        foreach ((RawRow row, JsonElement[] cells) in written.Zip(read.Select(r => r.EnumerateArray().ToArray())))
        {
            foreach ((Cell cell, JsonElement other) in row.Cells.Zip(cells))
            {
                if (cell.Kind == CellKind.Number)
                {
                    Assert.Equal(double.Parse(cell.Text, CultureInfo.InvariantCulture), other.GetDouble());
                }
                else
                {
                    // openpyxl hands the escape of an underscore through (ISO/IEC 29500-1, ST_Xstring).
                    Assert.Equal(cell.Text, other.ToString().Replace("_x005F_", "_", StringComparison.Ordinal));
                }
            }
        }
    }

    [Fact]
    public void We_read_the_csv_and_the_workbook_that_others_write()
    {
        object[][] rows = [["Name", "L", "a", "b", "Notes"], ["S\u00f8gr\u00f8nn \"deep\"", 31.92, -38.58, 1e-3, "one\ntwo; three"], ["10-1", 0.3, 0, 0, ""]];
        foreach (string format in (string[])["csv-write", "xlsx-write"])
        {
            ShelfTable shelf = Given.Read(Given.Shelf(Peer.Write(format, rows)));

            Assert.Equal(["S\u00f8gr\u00f8nn \"deep\"", "10-1"], shelf.Rows.Select(r => r.Name));
            Assert.Equal("one\ntwo; three", shelf.Rows[0].Notes);
            Assert.Equal([new(31.92, -38.58, 1e-3), new(0.3, 0, 0)], shelf.Rows.Select(r => Assert.IsType<LabReading>(r.Color).Lab));
        }
    }

    [Fact]
    public void Little_cms_reads_our_cgats_set_for_set()
    {
        // Little CMS knows no quotation mark inside a text.
        SwatchTable plain = new([.. Swatches.Rows.Select(r => r with { Of = r.Of.Replace('"', '\''), Film = r.Film.Replace('"', '\''), Note = r.Note.Replace('"', '\'') })]);
        JsonElement[] tables = [.. Peer.Read("cgats-read", Given.Written(plain, TableFormat.Cgats)).EnumerateArray()];
        string[][] sets = [.. tables.SelectMany(t => Rows(t.GetProperty("sets")))];

        Assert.Equal(plain.Rows.Count, sets.Length);
        foreach ((SwatchRow row, string[] set) in plain.Rows.Zip(sets))
        {
            Assert.Equal((row.SampleId, FormulaGuard.Close(row.Of)), (set[0], set[1]));
        }
        string[][] fields = [.. tables.Select(t => t.GetProperty("fields").EnumerateArray().Select(f => f.ToString()).ToArray())];
        foreach ((string[] names, JsonElement table) in fields.Zip(tables).Where(t => t.First.Any(f => f.StartsWith("SPECTRAL_NM", StringComparison.Ordinal))))
        {
            foreach (string[] set in Rows(table.GetProperty("sets")))
            {
                SpectrumReading spectrum = Assert.IsType<SpectrumReading>(plain.Rows.Single(r => r.SampleId == set[0]).Color);
                double[] read = [.. names.Zip(set).Where(f => f.First.StartsWith("SPECTRAL_NM", StringComparison.Ordinal)).Select(f => double.Parse(f.Second, CultureInfo.InvariantCulture))];
                // Little CMS hands numbers out with ten digits.
                Assert.All(spectrum.Factors.Zip(read), pair => Assert.Equal(pair.First, pair.Second, 1e-9));
            }
        }
    }

    [Fact]
    public void ElementTree_reads_our_cxf_object_for_object()
    {
        JsonElement[] objects = [.. Peer.Read("cxf-read", Given.Written(Swatches, TableFormat.Cxf)).EnumerateArray()];

        Assert.Equal(Swatches.Rows.Select(r => (r.SampleId, FormulaGuard.Close(r.Of))), objects.Select(o => (o.GetProperty("id").GetString()!, o.GetProperty("name").GetString()!)));
        foreach ((SwatchRow row, JsonElement item) in Swatches.Rows.Zip(objects))
        {
            string[] parts = [.. item.GetProperty("parts").EnumerateArray().Select(p => p[1].GetString()!)];
            string[] text = [.. item.GetProperty("text").EnumerateArray().Select(t => t.GetString()!)];
            double[] expected = row.Color switch
            {
                SpectrumReading s => [.. s.Factors],
                LabReading l => [l.Lab.L, l.Lab.A, l.Lab.B],
                XyzReading x => [x.Xyz.X, x.Xyz.Y, x.Xyz.Z],
                HexReading h => [h.Hex.R, h.Hex.G, h.Hex.B],
                _ => [],
            };
            Assert.Equal(expected, (parts.Length > 0 ? parts : text).Select(t => double.Parse(t, CultureInfo.InvariantCulture)));
            Assert.Equal(row.Note, FormulaGuard.Open(item.GetProperty("tags").TryGetProperty("note", out JsonElement note) ? note.GetString()! : ""));
        }
    }
}
