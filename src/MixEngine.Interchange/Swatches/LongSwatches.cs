namespace MixEngine.Interchange;

/// <summary>Swatches with one line for each sample and band. The first line of a sample describes it; further lines repeat that or leave it blank.</summary>
internal static class LongSwatches
{
    private const double ShortestNm = 100;
    private const double LongestNm = 10_000;

    private sealed record Sample(RowFields First)
    {
        public List<(double Nm, double Value, int Line)> Points { get; } = [];

        public bool Failed { get; set; }
    }

    public static void Read(RawTable raw, Headings headings, ColorFields color, TableDefaults defaults, SwatchDrafts drafts, ImportLog log, CancellationToken cancel)
    {
        var samples = new Dictionary<string, Sample>(StringComparer.Ordinal);
        var order = new List<Sample>();
        if (!headings.Has(SwatchColumns.SampleId))
        {
            log.Fault(raw.Header.Line, SwatchColumns.SampleId.Name, "", "a column \"sample_id\" that tells which lines belong together", "Add it.");
            return;
        }
        Column[] described = [.. SwatchColumns.All.Where(c => headings.Has(c) && c != SwatchColumns.Nm && c != SwatchColumns.Value)];

        // Gather the points of each sample.
        foreach (RowFields row in TableRows.Read(raw, headings, ImportLimits.LongRows, log, cancel))
        {
            string id = row[SwatchColumns.SampleId].Text;
            if (!samples.TryGetValue(id, out Sample? sample))
            {
                samples.Add(id, sample = new Sample(row));
                order.Add(sample);
            }
            else
            {
                CheckSame(row, sample, described);
            }
            AddPoint(row, sample);
        }

        // Make a spectrum of each.
        int number = 0;
        foreach (Sample sample in order)
        {
            SwatchRow swatch = SwatchFields.Read(sample.First, ++number, defaults);
            ColorDraft? draft = sample.Points.Count > 0 ? Spectrum(sample, color, log) : sample.Failed ? null : color.Read(sample.First);
            if (draft is not null)
            {
                drafts.Add(swatch, draft);
            }
            else if (!sample.Failed && ColorFields.StatesNone(sample.First))
            {
                log.Fault(sample.First.Line, SwatchColumns.Value.Name, "", "a wavelength and a reflectance on every line", "Give both, or another colour, or leave the sample out.");
            }
        }
    }

    private static void CheckSame(RowFields row, Sample sample, Column[] described)
    {
        foreach (Column column in described)
        {
            if (!row.IsBlank(column) && row[column].Text != sample.First[column].Text)
            {
                row.Fault(column, $"the same as on line {sample.First.Line}, or nothing", $"Sample {ImportLog.Shown(row[SwatchColumns.SampleId].Text)} is described on line {sample.First.Line}.");
            }
        }
    }

    private static void AddPoint(RowFields row, Sample sample)
    {
        if (row.IsBlank(SwatchColumns.Nm) && row.IsBlank(SwatchColumns.Value))
        {
            return;
        }
        double? nm = row.Number(SwatchColumns.Nm, ShortestNm, LongestNm, "a wavelength in nm");
        Cell cell = row[SwatchColumns.Value];
        double value = 0;
        bool read = cell.Kind != CellKind.Date && NumberText.TryRead(cell.Text, out value);
        if (row.IsBlank(SwatchColumns.Nm))
        {
            row.Fault(SwatchColumns.Nm, "a wavelength in nm", "Give the wavelength of this reflectance.");
        }
        if (!read)
        {
            string remedy = cell.IsBlank ? "Measure it again, or leave the sample out." : NumberText.Remedy(cell.Text);
            row.Fault(SwatchColumns.Value, nm is { } at ? $"a reflectance at {ScaleDecision.BandName(at)}" : "a reflectance", remedy);
        }
        if (nm is { } wavelength && read)
        {
            sample.Points.Add((wavelength, value, row.Line));
        }
        else
        {
            sample.Failed = true;
        }
    }

    private static ColorDraft? Spectrum(Sample sample, ColorFields color, ImportLog log)
    {
        if (sample.Failed)
        {
            return null;
        }
        sample.Points.Sort((a, b) => a.Nm.CompareTo(b.Nm));
        for (int i = 1; i < sample.Points.Count; i++)
        {
            if (sample.Points[i].Nm == sample.Points[i - 1].Nm)
            {
                (int first, int second) = (Math.Min(sample.Points[i].Line, sample.Points[i - 1].Line), Math.Max(sample.Points[i].Line, sample.Points[i - 1].Line));
                log.Fault(second, SwatchColumns.Nm.Name, NumberText.Write(sample.Points[i].Nm), "each wavelength once in a sample", $"Line {first} has it too: remove one.");
                sample.Failed = true;
                return null;
            }
        }
        double[] nm = [.. sample.Points.Select(p => p.Nm)];
        if (SpectrumReading.GridFault(nm) is { } fault)
        {
            log.Fault(sample.First.Line, "spectrum", $"{nm.Length} bands", "a spectrum of the visible range", fault);
            sample.Failed = true;
            return null;
        }
        return color.Gathered(sample.First, nm, [.. sample.Points.Select(p => p.Value)]);
    }
}
