using MixEngine.Colorimetry;

namespace MixEngine.Interchange;

/// <summary>Reads the colours of one table, row by row, into the drafts of its file.</summary>
internal sealed class ColorFields(Headings headings, ColorDrafts drafts, TableDefaults defaults)
{
    /// <summary>Stands in the column of a band that a row's own grid does not have.</summary>
    public const string NotOnGrid = "-";

    private const double MostChromatic = 200;
    private const double MostXyz = 200;
    private const double Rounding = 1e-6;

    private static readonly Column[] Stating =
        [ColorColumns.Hex, ColorColumns.L, ColorColumns.A, ColorColumns.B, ColorColumns.X, ColorColumns.Y, ColorColumns.Z];

    private readonly double[] _bandsNm = [.. headings.Bands.Select(b => b.WavelengthNm)];

    /// <summary>A table must have a column of colours, and all three columns of Lab or XYZ.</summary>
    public static void CheckHeadings(Headings headings, RawRow header, ImportLog log)
    {
        if (log.Failed)
        {
            return;
        }
        if (headings.Bands.Count == 0 && !Stating.Any(headings.Has))
        {
            log.Fault(header.Line, "colour", string.Join(", ", header.Cells.Select(c => c.Text)),
                "a column \"hex\", or columns L, a, b, or one for each wavelength", "Add a column of colours.");
        }
        foreach (Column[] triple in (Column[][])[[ColorColumns.L, ColorColumns.A, ColorColumns.B], [ColorColumns.X, ColorColumns.Y, ColorColumns.Z]])
        {
            if (triple.Count(headings.Has) is 1 or 2)
            {
                Column missing = triple.First(c => !headings.Has(c));
                log.Fault(header.Line, missing.Name, "", $"all three columns {string.Join(", ", triple.Select(c => c.Name))}", $"Add the column {missing.Name}, or rename its heading to that.");
            }
        }
    }

    /// <summary>Whether no colour stands in the row at all, right or wrong.</summary>
    public static bool StatesNone(RowFields row) => Stating.All(row.IsBlank) && row.Headings.Bands.All(b => row.At(b.Place).IsBlank);

    /// <summary>Reads a row's colour; null where it states none, or where it is at fault. A spectrum is taken before Lab, Lab before XYZ, XYZ before hex.</summary>
    public ColorDraft? Read(RowFields row)
    {
        ReflectanceScale? declared = row.Word(ColorColumns.Scale, ReflectanceScales.Words);
        ColorDraft?[] stated = [Spectrum(row), Lab(row), Xyz(row), Hex(row)];
        ColorDraft? best = stated.FirstOrDefault(d => d is not null);
        drafts.CountStated(stated.Count(d => d is not null));
        return best is null ? null : drafts.Add(best with { Declared = declared ?? (best.IsSpectrum ? defaults.SpectrumScale : defaults.XyzScale) });
    }

    /// <summary>A spectrum gathered from several lines, of which one declares its scale.</summary>
    public ColorDraft Gathered(RowFields first, double[] wavelengthsNm, double[] values) => drafts.Add(new ColorDraft(first.Line)
    {
        WavelengthsNm = drafts.Grids.Shared(wavelengthsNm),
        Values = values,
        Declared = first.Word(ColorColumns.Scale, ReflectanceScales.Words) ?? defaults.SpectrumScale,
    });

    private ColorDraft? Spectrum(RowFields row)
    {
        if (headings.Bands.Count == 0 || headings.Bands.All(b => row.At(b.Place).IsBlank))
        {
            return null;
        }
        var values = new double[_bandsNm.Length];
        var left = new List<int>();
        for (int i = 0; i < values.Length; i++)
        {
            Cell cell = row.At(headings.Bands[i].Place);
            if (cell.Text == NotOnGrid)
            {
                left.Add(i);
            }
            else if (cell.Kind == CellKind.Date || !NumberText.TryRead(cell.Text, out values[i]))
            {
                string remedy = cell.IsBlank ? $"Measure it again, or leave the row's spectrum out; \"{NotOnGrid}\" says that this band was not measured." : NumberText.Remedy(cell.Text);
                row.Log.Fault(row.Line, ScaleDecision.BandName(_bandsNm[i]), cell.Text, "a reflectance in every band", remedy);
                return null;
            }
        }
        return left.Count == 0
            ? new ColorDraft(row.Line) { WavelengthsNm = _bandsNm, Values = values }
            : SpectrumWithout(left, values, row);
    }

    /// <summary>A spectrum measured on fewer bands than the table has.</summary>
    private ColorDraft? SpectrumWithout(List<int> left, double[] values, RowFields row)
    {
        double[] nm = [.. _bandsNm.Where((_, i) => !left.Contains(i))];
        if (SpectrumReading.GridFault(nm) is { } fault)
        {
            row.Log.Fault(row.Line, "spectrum", $"{nm.Length} bands", "a spectrum of the visible range", fault);
            return null;
        }
        return new ColorDraft(row.Line) { WavelengthsNm = drafts.Grids.Shared(nm), Values = [.. values.Where((_, i) => !left.Contains(i))] };
    }

    private ColorDraft? Lab(RowFields row) =>
        Triple(row, (ColorColumns.L, 0, 100), (ColorColumns.A, -MostChromatic, MostChromatic), (ColorColumns.B, -MostChromatic, MostChromatic)) is { } t && ConditionOf(row) is { } view
            ? new ColorDraft(row.Line) { Ready = new LabReading(new Lab(t.First, t.Second, t.Third), view), AssumesCondition = AssumesCondition(row) }
            : null;

    private ColorDraft? Xyz(RowFields row) =>
        Triple(row, (ColorColumns.X, 0, MostXyz), (ColorColumns.Y, 0, MostXyz), (ColorColumns.Z, 0, MostXyz)) is { } t && ConditionOf(row) is { } view
            ? new ColorDraft(row.Line) { Xyz = new XyzReading(new Xyz(t.First, t.Second, t.Third), view), AssumesCondition = AssumesCondition(row) }
            : null;

    private static (double First, double Second, double Third)? Triple(RowFields row, params ReadOnlySpan<(Column Column, double Least, double Most)> parts)
    {
        if (row.IsBlank(parts[0].Column) && row.IsBlank(parts[1].Column) && row.IsBlank(parts[2].Column))
        {
            return null;
        }
        Span<double> values = stackalloc double[3];
        bool whole = true;
        for (int i = 0; i < 3; i++)
        {
            (Column column, double least, double most) = parts[i];
            if (row.IsBlank(column))
            {
                row.Fault(column, $"a number, as in the other two of {parts[0].Column.Name}, {parts[1].Column.Name}, {parts[2].Column.Name}", "Give all three, or none.");
            }
            double? value = row.Number(column, least, most, column.Name, Rounding);
            whole &= value is not null;
            values[i] = value ?? 0;
        }
        return whole ? (values[0], values[1], values[2]) : null;
    }

    private static ColorDraft? Hex(RowFields row)
    {
        Cell cell = row[ColorColumns.Hex];
        if (cell.IsBlank)
        {
            return null;
        }
        bool lost = cell.Kind != CellKind.Text && !(cell.Text.Length == 6 && cell.Text.All(char.IsAsciiDigit));
        if (!lost && HexColor.TryParse(cell.Text, out HexColor hex))
        {
            return new ColorDraft(row.Line) { Ready = new HexReading(hex) };
        }
        lost |= NumberText.TryRead(cell.Text, out _);
        row.Fault(ColorColumns.Hex, "a hex colour such as #5a6b3c or #ccc",
            lost ? "A spreadsheet may have made a number of it (and lost zeros): format the column as text and type it again, with #." : "Write six hexadecimal digits, with or without #.");
        return null;
    }

    private bool AssumesCondition(RowFields row) =>
        row.IsBlank(ColorColumns.Illuminant) && defaults.Illuminant is null || row.IsBlank(ColorColumns.Observer) && defaults.Observer is null;

    /// <summary>Light and observer of a Lab or XYZ; null when stated and unknown.</summary>
    private ViewingCondition? ConditionOf(RowFields row)
    {
        Illuminant? light = defaults.Illuminant ?? drafts.Condition.Illuminant;
        Observer? observer = defaults.Observer ?? drafts.Condition.Observer;
        if (!row.IsBlank(ColorColumns.Illuminant) && (light = ColorColumns.IlluminantOf(row[ColorColumns.Illuminant].Text)) is null)
        {
            row.Fault(ColorColumns.Illuminant, $"one of {string.Join(", ", Illuminant.All.Select(i => i.Name))}", "Use one of these names.");
        }
        if (!row.IsBlank(ColorColumns.Observer) && (observer = ColorColumns.ObserverOf(row[ColorColumns.Observer].Text)) is null)
        {
            row.Fault(ColorColumns.Observer, "2 or 10 (degrees)", "Use one of these.");
        }
        return light is not null && observer is { } o ? new ViewingCondition(light, o) : null;
    }
}
