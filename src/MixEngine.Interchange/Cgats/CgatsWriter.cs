using System.Globalization;

namespace MixEngine.Interchange;

/// <summary>
/// Writes swatches after CGATS.17 / ISO 28178 [CGATS17]. A table of that format has the same fields in every set, so each run of swatches
/// whose colours are stated alike becomes a table of its own, and the order of the swatches is kept.
/// </summary>
internal static class CgatsWriter
{
    private static readonly string[] Standard = ["SAMPLE_ID", "LAB_L", "LAB_A", "LAB_B", "XYZ_X", "XYZ_Y", "XYZ_Z"];

    public static void Write(SwatchTable table, Stream stream, DateOnly created)
    {
        using var text = new StreamWriter(stream, TextBytes.Utf8, leaveOpen: true) { NewLine = "\n" };
        text.WriteLine("CGATS.17");
        text.WriteLine("ORIGINATOR \"MixEngine\"");
        text.WriteLine("DESCRIPTOR \"Swatches of paints\"");
        text.WriteLine($"CREATED \"{DateText.Write(created)}\"");
        foreach (List<SwatchRow> run in Runs(table.Rows))
        {
            WriteTable(run, text);
        }
    }

    private static void WriteTable(List<SwatchRow> run, StreamWriter text)
    {
        string[] color = ColorFieldsOf(run.Count > 0 ? run[0].Color : null);
        string[] fields = [.. SwatchTableWriter.DescribedHeadings.Select(h => h.Text == SwatchColumns.Of.Name ? "SAMPLE_NAME" : h.Text.ToUpperInvariant()), .. color];
        text.WriteLine();
        foreach (string field in fields.Where(f => !Standard.Contains(f)))
        {
            text.WriteLine($"KEYWORD \"{field}\"");
        }
        if (run.Count > 0 && run[0].Color is SpectrumReading)
        {
            text.WriteLine("KEYWORD \"SPECTRAL_SCALE\"");
            text.WriteLine("SPECTRAL_SCALE \"fraction\"");
        }
        text.WriteLine(string.Create(CultureInfo.InvariantCulture, $"NUMBER_OF_FIELDS {fields.Length}"));
        text.WriteLine("BEGIN_DATA_FORMAT");
        text.WriteLine(string.Join('\t', fields));
        text.WriteLine("END_DATA_FORMAT");
        text.WriteLine(string.Create(CultureInfo.InvariantCulture, $"NUMBER_OF_SETS {run.Count}"));
        text.WriteLine("BEGIN_DATA");
        foreach (SwatchRow row in run)
        {
            text.WriteLine(string.Join('\t', SwatchTableWriter.Described(row).Concat(ColorCellsOf(row.Color)).Select(Word)));
        }
        text.WriteLine("END_DATA");
    }

    private static IEnumerable<List<SwatchRow>> Runs(IReadOnlyList<SwatchRow> rows)
    {
        var run = new List<SwatchRow>();
        foreach (SwatchRow row in rows)
        {
            if (run.Count > 0 && !StatedAlike(run[0].Color, row.Color))
            {
                yield return run;
                run = [];
            }
            run.Add(row);
        }
        yield return run;
    }

    private static bool StatedAlike(ColorReading a, ColorReading b) =>
        a is SpectrumReading x && b is SpectrumReading y ? x.WavelengthsNm.SequenceEqual(y.WavelengthsNm) : a.GetType() == b.GetType();

    private static string[] ColorFieldsOf(ColorReading? color) => color switch
    {
        LabReading => ["LAB_L", "LAB_A", "LAB_B", "ILLUMINANT", "OBSERVER"],
        XyzReading => ["XYZ_X", "XYZ_Y", "XYZ_Z", "ILLUMINANT", "OBSERVER"],
        SpectrumReading spectrum => [.. spectrum.WavelengthsNm.Select(nm => "SPECTRAL_NM" + NumberText.Write(nm))],
        _ => ["SRGB_HEX"],
    };

    private static IEnumerable<Cell> ColorCellsOf(ColorReading color) => color switch
    {
        LabReading { Lab: var lab, Condition: var view } =>
            [Cell.Of(lab.L), Cell.Of(lab.A), Cell.Of(lab.B), new Cell(view.Illuminant.Name), new Cell(ColorColumns.WordFor(view.Observer))],
        XyzReading { Xyz: var xyz, Condition: var view } =>
            [Cell.Of(xyz.X), Cell.Of(xyz.Y), Cell.Of(xyz.Z), new Cell(view.Illuminant.Name), new Cell(ColorColumns.WordFor(view.Observer))],
        SpectrumReading spectrum => spectrum.Factors.Select(Cell.Of),
        HexReading hex => [new Cell(hex.Hex.ToString())],
        _ => [],
    };

    private static string Word(Cell cell)
    {
        if (cell.Kind != CellKind.Number)
        {
            return CgatsLine.Quote(cell.Text);
        }
        // Readers are known that take 6E-16, without a point, for a name.
        return cell.Text.Contains('.') ? cell.Text : cell.Text.Replace("E", ".0E", StringComparison.Ordinal);
    }
}
