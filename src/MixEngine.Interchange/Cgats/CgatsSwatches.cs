using System.Text.RegularExpressions;
using MixEngine.Colorimetry;

namespace MixEngine.Interchange;

/// <summary>From the tables of a CGATS file to swatches: fields are columns, keywords say what holds for all rows.</summary>
internal static partial class CgatsSwatches
{
    private const string WavelengthField = "SPECTRAL_NM";
    private const string PercentField = "SPECTRAL_PCT";
    private const string FractionField = "SPECTRAL_DEC";

    public static void Read(TextReader text, SwatchDrafts drafts, ImportLog log, CancellationToken cancel)
    {
        IReadOnlyList<CgatsTable> tables = new CgatsReader(log, cancel).Read(text);
        foreach (CgatsTable table in log.Failed ? [] : tables)
        {
            if (Widened(table, log) is { } raw)
            {
                SwatchTableReader.Read(raw, DefaultsOf(table, log), drafts, log, cancel);
            }
        }
    }

    private static TableDefaults DefaultsOf(CgatsTable table, ImportLog log)
    {
        string all = string.Join("; ", table.Keywords
            .Where(k => k.Keyword.ToUpperInvariant() is "WEIGHTING_FUNCTION" or "MEASUREMENT_SOURCE")
            .Select(k => k.Value));
        return new TableDefaults
        {
            Illuminant = IlluminantOf(table, "ILLUMINATION_NAME", FirstOf(table.Value("ILLUMINATION_NAME"), IlluminantPair().Match(all).Groups["value"].Value), log),
            Observer = ColorColumns.ObserverOf(FirstOf(table.Value("OBSERVER_ANGLE"), ObserverPair().Match(all).Groups["value"].Value)),
            SpectrumScale = ScaleOf(table),
            // Y of the perfect white is 100 in this format.
            XyzScale = ReflectanceScale.Percent,
            Specular = SpecularOf(table.Value("MEASUREMENT_GEOMETRY")),
            Backing = table.Value("SAMPLE_BACKING").ToLowerInvariant() switch { "black" => SwatchBacking.Black, "white" => SwatchBacking.White, _ => null },
            Source = table.Value("INSTRUMENTATION").Length > 0 ? SwatchSource.Instrument : null,
        };
    }

    private static Illuminant? IlluminantOf(CgatsTable table, string keyword, string name, ImportLog log)
    {
        Illuminant? light = name.Length > 0 ? ColorColumns.IlluminantOf(name) : null;
        bool needed = table.Fields.Any(f => Column.KeyOf(f) is "labl" or "xyzx") && !table.Fields.Any(f => Column.KeyOf(f) == "illuminant");
        if (name.Length > 0 && light is null && needed)
        {
            log.Fault(table.FieldsLine, keyword, name, $"one of {string.Join(", ", Illuminant.All.Select(i => i.Name))}", "Colours under other lights cannot be read: export spectra, or Lab under one of these.");
        }
        return light;
    }

    private static ReflectanceScale? ScaleOf(CgatsTable table)
    {
        if (table.Fields.Any(f => f.StartsWith(PercentField, StringComparison.OrdinalIgnoreCase)))
        {
            return ReflectanceScale.Percent;
        }
        if (table.Fields.Any(f => f.StartsWith(FractionField, StringComparison.OrdinalIgnoreCase)))
        {
            return ReflectanceScale.Fraction;
        }
        return ReflectanceScales.Words.MeaningOf(FirstOf(table.Value("SPECTRAL_SCALE"), NumberText.TryRead(table.Value("SPECTRAL_NORM"), out double norm) ? NumberText.Write(norm) : ""));
    }

    private static SpecularMode SpecularOf(string geometry) =>
        geometry.Contains("excluded", StringComparison.OrdinalIgnoreCase) || geometry.Contains("45", StringComparison.Ordinal) ? SpecularMode.Excluded
        : geometry.Contains("included", StringComparison.OrdinalIgnoreCase) ? SpecularMode.Included
        : SpecularModes.Words.MeaningOf(geometry) ?? SpecularMode.Unknown;

    private static string FirstOf(string one, string other) => one.Length > 0 ? one : other;

    /// <summary>
    /// The standard's own spectra stand as pairs, a wavelength field and a value field for each band; here each pair becomes one column of its wavelength.
    /// All sets must have the same wavelengths. Null, with a fault logged, where they have not.
    /// </summary>
    private static RawTable? Widened(CgatsTable table, ImportLog log)
    {
        var pairs = new List<(int Nm, int Value)>();
        for (int i = 0; i + 1 < table.Fields.Count; i++)
        {
            if (table.Fields[i].Equals(WavelengthField, StringComparison.OrdinalIgnoreCase) && table.Fields[i + 1].ToUpperInvariant() is PercentField or FractionField)
            {
                pairs.Add((i, i + 1));
            }
        }
        string[] headings = [.. table.Fields];
        foreach ((int nm, int value) in table.Sets.Count > 0 ? pairs : [])
        {
            headings[value] = PercentField + table.Sets[0].Cells[nm].Text;
            headings[nm] = "";
            foreach (RawRow set in table.Sets)
            {
                if (set.Cells[nm].Text != table.Sets[0].Cells[nm].Text)
                {
                    log.Fault(set.Line, WavelengthField, set.Cells[nm].Text, $"{table.Sets[0].Cells[nm].Text}, as in the first data set", "Put spectra of other wavelengths into a table of their own.");
                    return null;
                }
            }
        }
        return new RawTable(new RawRow(table.FieldsLine, [.. headings.Select(h => new Cell(h))]), table.Sets);
    }

    /// <summary>"ILLUMINANT, D50" of a weighting function; "Illumination=D50" as instruments' programs write it.</summary>
    [GeneratedRegex(@"\billumina(nt|tion)\s*[,=]\s*(?<value>[\w-]+)", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex IlluminantPair();

    /// <summary>"OBSERVER, 2 degree" of a weighting function; "ObserverAngle=2" as instruments' programs write it.</summary>
    [GeneratedRegex(@"\bobserver(angle)?\s*[,=]\s*(?<value>\d+)", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex ObserverPair();
}
