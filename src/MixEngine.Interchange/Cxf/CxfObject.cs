using System.Globalization;
using System.Xml.Linq;

namespace MixEngine.Interchange;

/// <summary>One Object of a CxF file: what it states as cells of a row, and its spectrum.</summary>
internal sealed class CxfObject
{
    private readonly XElement _element;
    private readonly XNamespace _cc;
    private readonly XElement? _values;
    private readonly XElement? _color;
    private readonly bool _foreign;
    private readonly Dictionary<string, string> _tags;

    public CxfObject(XElement element, IReadOnlyDictionary<string, CxfSpecification> specifications)
    {
        _element = element;
        _cc = element.Name.Namespace;
        _values = element.Element(_cc + "ColorValues");
        _color = ((string[])["ReflectanceSpectrum", "CustomSpectrum", "ColorCIELab", "ColorCIEXYZ", "ColorSRGB"])
            .Select(name => _values?.Element(_cc + name)).FirstOrDefault(e => e is not null);
        XElement? ours = element.Elements(_cc + "TagCollection").FirstOrDefault(c => (string?)c.Attribute("Name") == CxfSwatches.Tags);
        _foreign = ours is null;
        _tags = (ours?.Elements(_cc + "Tag") ?? []).GroupBy(t => (string?)t.Attribute("Name") ?? "").ToDictionary(t => t.Key, t => (string?)t.First().Attribute("Value") ?? "");
        Specification = specifications.GetValueOrDefault((string?)_color?.Attribute("ColorSpecification") ?? "") ?? CxfSpecification.Empty;
    }

    public CxfSpecification Specification { get; }

    public bool HasNoColors => _values is null || !_values.HasElements;

    /// <summary>The names of the color values there are.</summary>
    public string ColorNames => string.Join(", ", _values!.Elements().Select(e => e.Name.LocalName));

    public int SpectrumCount => _color?.Name.LocalName is "ReflectanceSpectrum" or "CustomSpectrum" ? _values!.Elements(_color.Name).Count() : 0;

    /// <summary>What the object states, as one row under these columns.</summary>
    public RawRow Row(IReadOnlyList<Column> columns) => new(CxfXml.LineOf(_element), [.. columns.Select(c => new Cell(PlainText.Tidy(Text(c))))]);

    /// <summary>The spectrum on its wavelengths; null, with a fault logged, when it is not whole.</summary>
    public (double[] WavelengthsNm, double[] Values)? Spectrum(ImportLog log)
    {
        List<(double Nm, double Value)>? points = _color!.Name.LocalName == "CustomSpectrum" ? CustomPoints(log) : EvenPoints(log);
        if (points is null)
        {
            return null;
        }
        points.Sort((a, b) => a.Nm.CompareTo(b.Nm));
        double[] nm = [.. points.Select(p => p.Nm)];
        if (SpectrumReading.GridFault(nm) is { } fault)
        {
            log.Fault(CxfXml.LineOf(_color), _color.Name.LocalName, $"{nm.Length} values", "a spectrum of the visible range", fault);
            return null;
        }
        return (nm, [.. points.Select(p => p.Value)]);
    }

    private string Text(Column column)
    {
        // Our own tags first; then what the format has an element for.
        if (_tags.TryGetValue(column.Name, out string? tag))
        {
            return tag;
        }
        string name = (string?)_element.Attribute("Name") ?? "";
        string id = (string?)_element.Attribute("Id") ?? "";
        return column switch
        {
            _ when column == SwatchColumns.SampleId => id.Length > 0 ? id : name,
            _ when column == SwatchColumns.Of => name.Length > 0 ? name : id,
            _ when column == SwatchColumns.Date && _foreign => Date(),
            _ when column == SwatchColumns.Source && _foreign && Specification.Source is { } source => SwatchSources.Words.WordFor(source),
            _ when column == SwatchColumns.Note => _element.Element(_cc + "Comment")?.Value ?? "",
            _ when column == ColorColumns.L => Part("ColorCIELab", "L"),
            _ when column == ColorColumns.A => Part("ColorCIELab", "A"),
            _ when column == ColorColumns.B => Part("ColorCIELab", "B"),
            _ when column == ColorColumns.X => Part("ColorCIEXYZ", "X"),
            _ when column == ColorColumns.Y => Part("ColorCIEXYZ", "Y"),
            _ when column == ColorColumns.Z => Part("ColorCIEXYZ", "Z"),
            _ when column == ColorColumns.Hex => Hex(),
            _ when column == ColorColumns.Illuminant => Specification.Illuminant,
            _ when column == ColorColumns.Observer => Specification.Observer,
            _ => "",
        };
    }

    private string Part(string color, string part) => _color?.Name.LocalName == color ? _color.Element(_cc + part)?.Value ?? "" : "";

    /// <summary>The day of measuring; a date that is none of the calendar's is none.</summary>
    private string Date()
    {
        string stamp = (string?)_color?.Attribute("MeasureDate") ?? _element.Element(_cc + "CreationDate")?.Value ?? "";
        return DateText.TryRead(stamp.Trim()) is { } day ? DateText.Write(day) : "";
    }

    /// <summary>Red, green and blue of 0 to MaxRange (255 where not stated) as hex; where they are not whole bytes, a text that is refused as no hex.</summary>
    private string Hex()
    {
        if (_color?.Name.LocalName != "ColorSRGB")
        {
            return "";
        }
        string[] parts = [Part("ColorSRGB", "R"), Part("ColorSRGB", "G"), Part("ColorSRGB", "B")];
        string range = _color.Element(_cc + "MaxRange")?.Value.Trim() ?? "255";
        return range == "255" && parts.All(p => byte.TryParse(p.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out _))
            ? "#" + string.Concat(parts.Select(p => byte.Parse(p.Trim(), CultureInfo.InvariantCulture).ToString("x2", CultureInfo.InvariantCulture)))
            : $"{string.Join(' ', parts)} of {range}";
    }

    private List<(double Nm, double Value)>? EvenPoints(ImportLog log)
    {
        int line = CxfXml.LineOf(_color!);
        string start = (string?)_color!.Attribute("StartWL") ?? Specification.StartNm;
        string increment = (string?)_color.Attribute("Increment") ?? Specification.IncrementNm;
        if (!NumberText.TryRead(start, out double first) || !NumberText.TryRead(increment, out double step) || first <= 0 || step <= 0)
        {
            log.Fault(line, "WavelengthRange", $"StartWL {start}, Increment {increment}", "the first wavelength and the step, both in nm",
                "The ColorSpecification of this spectrum must say both: export the file again with its measurement conditions.");
            return null;
        }
        var points = new List<(double, double)>();
        foreach (string token in _color.Value.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
        {
            double nm = first + points.Count * step;
            if (!NumberText.TryRead(token, out double value))
            {
                log.Fault(line, ScaleDecision.BandName(nm), token, "a reflectance in every band", NumberText.Remedy(token));
                return null;
            }
            points.Add((nm, value));
        }
        return points;
    }

    private List<(double Nm, double Value)>? CustomPoints(ImportLog log)
    {
        var points = new List<(double, double)>();
        foreach (XElement point in _color!.Elements(_cc + "SpectralPoint"))
        {
            string wavelength = (string?)point.Attribute("WL") ?? "";
            bool located = NumberText.TryRead(wavelength, out double nm);
            if (!located || !NumberText.TryRead(point.Value.Trim(), out double value))
            {
                log.Fault(CxfXml.LineOf(point), located ? ScaleDecision.BandName(nm) : "WL", located ? point.Value : wavelength, "a wavelength and a reflectance", NumberText.Remedy(point.Value));
                return null;
            }
            points.Add((nm, value));
        }
        return points;
    }
}
