using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Interchange;

/// <summary>
/// Reads a scheme file (TOML 1.0). Its keys are described in <c>scheme.schema.json</c>; every fault names the line and the key. What is wrong with
/// a file is a value, never an exception; a scheme is read whole or not at all.
/// </summary>
public static class SchemeReader
{
    /// <summary>Most bytes of a scheme file: thousands of areas take less than half of it.</summary>
    public const int MostBytes = 4 * 1024 * 1024;

    /// <summary>Most figures in a scheme, and most areas on a figure.</summary>
    public const int MostFigures = 2_000;

    /// <summary>The published schema of the file, JSON Schema 2020-12.</summary>
    public static string JsonSchema
    {
        get
        {
            using Stream stream = typeof(SchemeReader).Assembly.GetManifestResourceStream("MixEngine.Interchange.Schemes.scheme.schema.json")!;
            using var reader = new StreamReader(stream);
            return reader.ReadToEnd();
        }
    }

    /// <summary>Reads a scheme.</summary>
    /// <param name="text">The file's text.</param>
    public static ReadResult<Scheme> Read(string text)
    {
        var log = new ImportLog();
        Scheme? scheme = null;
        if (text.Length > MostBytes)
        {
            log.FileFault($"{text.Length} characters", $"at most {MostBytes}", "Split the scheme.");
        }
        else if (TomlTree.Read(text, log) is { } root)
        {
            scheme = SchemeOf(new SchemeTable(root, "", log), log);
        }
        return new ReadResult<Scheme>
        {
            Table = log.Failed ? null : scheme,
            Notes = log.Notes,
            Faults = [.. log.Faults.OrderBy(f => f.Line)],
            FaultsNotListed = log.FaultsNotListed,
        };
    }

    private static Scheme SchemeOf(SchemeTable keys, ImportLog log)
    {
        ViewingCondition condition = ConditionOf(keys);
        double height = keys.Number("height-mm", 5, 500, "mm") ?? FigureSurface.ConventionalHeightMm;
        Finish? finish = keys.Word("varnish", SchemeWords.Finishes);
        Thinner? thinner = keys.Word("varnish-thinner", SchemeWords.Thinners);
        if (thinner is not null && finish is null)
        {
            keys.Fault("varnish-thinner", thinner.ToString()!, "a varnish to be thinned", "Add varnish = \"matt\", \"satin\" or \"gloss\".");
        }
        var scheme = new Scheme
        {
            Name = keys.Text("name") ?? Required(keys, "name", "a name for the scheme"),
            Shelves = keys.Texts("shelf"),
            BuyFrom = keys.Text("buy-from"),
            OnTable = keys.Texts("on-table"),
            Condition = condition,
            Primer = keys.Word("primer", SchemeWords.Primers) is { } primer ? primer.ToString().ToLowerInvariant() : null,
            Varnish = finish is { } f ? new Varnish(f, thinner == Thinner.Solvent) : null,
            Sprayed = [.. keys.Texts("sprayed").Select(word => SprayedOf(keys, word)).OfType<SprayedCoat>()],
            Sanded = keys.Flag("sanded") ?? false,
            Tolerance = keys.Number("tolerance", 0.1, 50, "dE00") ?? Scheme.ConventionalTolerance,
            PaintsPerMix = keys.Whole("paints-per-mix", 1, 3) ?? 3,
            Drops = keys.Whole("drops", 1, 80) ?? Scheme.ConventionalDrops,
            Surplus = (keys.Number("surplus-percent", 0, 200, "percent") ?? 100 * Scheme.ConventionalSurplus) / 100,
            ChromaAtMost = keys.Number("chroma-at-most", 0, 150, "(CIELAB C*)"),
            Figures = Figures(keys, height, condition, log),
            Lines = keys.Lines,
        };
        keys.RefuseOthers();
        if (!log.Failed)
        {
            SchemeReferences.Check(scheme, log);
        }
        return scheme;
    }

    private static List<Figure> Figures(SchemeTable keys, double height, ViewingCondition condition, ImportLog log)
    {
        IReadOnlyList<TomlTable> tables = keys.Tables("figure");
        if (tables.Count is 0 or > MostFigures)
        {
            keys.Fault("figure", tables.Count == 0 ? "" : $"{tables.Count} figures", $"1 to {MostFigures} tables headed [[figure]]", "Begin each figure with a line [[figure]].");
            return [];
        }
        return [.. tables.Select((table, i) => FigureOf(table, i + 1, height, condition, log))];
    }

    private static Figure FigureOf(TomlTable table, int number, double height, ViewingCondition condition, ImportLog log)
    {
        string path = $"figure {NameIn(table, number)}";
        var keys = new SchemeTable(table, path, log);
        double own = keys.Number("height-mm", 5, 500, "mm") ?? height;
        string size = keys.Text("size", $"one of {string.Join(", ", FigureSurface.Names)}") ?? FigureSurface.Names[0];
        if (!FigureSurface.Names.Contains(size))
        {
            keys.Fault("size", size, $"one of {string.Join(", ", FigureSurface.Names)}", "Use one of these, or state surface-cm2.");
            size = FigureSurface.Names[0];
        }
        IReadOnlyList<TomlTable> areas = keys.Tables("area");
        if (areas.Count is 0 or > MostFigures)
        {
            keys.Fault("area", areas.Count == 0 ? "" : $"{areas.Count} areas", $"1 to {MostFigures} tables headed [[figure.area]]", "Begin each area with a line [[figure.area]].");
        }
        var figure = new Figure
        {
            Name = keys.Text("name") ?? Required(keys, "name", "a name for the figure"),
            Count = keys.Whole("count", 1, 100_000) ?? 1,
            SurfaceCm2 = keys.Number("surface-cm2", 0.1, 100_000, "cm²") ?? FigureSurface.Of(size, own),
            Areas = [.. areas.Select((area, i) => AreaReader.Read(area, $"{path} / area {NameIn(area, i + 1)}", condition, log))],
            Lines = keys.Lines,
        };
        keys.RefuseOthers();
        return figure;
    }

    /// <summary>How a table is called in faults: by its name, or by its number where it has none.</summary>
    private static string NameIn(TomlTable table, int number) =>
        table.Keys.TryGetValue("name", out var name) && name.Value.Content is string text && text.Trim().Length > 0 ? $"\"{ImportLog.Shown(text.Trim())}\"" : $"{number}";

    internal static string Required(SchemeTable keys, string key, string expected)
    {
        if (!keys.Has(key))
        {
            keys.Fault(key, "", expected, $"Add {key} = \"...\".");
        }
        return "";
    }

    private static SprayedCoat? SprayedOf(SchemeTable keys, string word)
    {
        SprayedCoat? coat = SchemeWords.Sprayed.MeaningOf(word);
        if (coat is null)
        {
            keys.Fault("sprayed", word, $"one or more of {SchemeWords.Sprayed.Expected}", "Use these words.");
        }
        return coat;
    }

    private static ViewingCondition ConditionOf(SchemeTable keys)
    {
        string light = keys.Text("light") ?? ViewingCondition.Default.Illuminant.Name;
        if (!Illuminant.TryFromName(light, out Illuminant? illuminant))
        {
            keys.Fault("light", light, $"one of {string.Join(", ", Illuminant.All.Select(i => i.Name))}", "Use one of these names.");
            illuminant = Illuminant.D65;
        }
        int degrees = keys.Whole("observer", 2, 10) ?? 2;
        if (degrees is not (2 or 10))
        {
            keys.Fault("observer", $"{degrees}", "2 or 10 (degrees)", "Use one of these.");
        }
        return new ViewingCondition(illuminant, degrees == 10 ? Observer.Degree10 : Observer.Degree2);
    }
}
