using System.Xml.Linq;

namespace MixEngine.Interchange;

/// <summary>How colours of a CxF file were measured and computed: one ColorSpecification, to which color values refer.</summary>
internal sealed record CxfSpecification
{
    public static readonly CxfSpecification Empty = new();

    /// <summary>As the file names it; empty when not stated.</summary>
    public string Illuminant { get; init; } = "";

    public string Observer { get; init; } = "";

    public string StartNm { get; init; } = "";

    public string IncrementNm { get; init; } = "";

    public SpecularMode Specular { get; init; }

    public SwatchBacking? Backing { get; init; }

    public SwatchSource? Source { get; init; }

    /// <summary>What holds for every color value that refers here. Spectra are fractions, Y is 100 for white.</summary>
    public TableDefaults Defaults => new()
    {
        Specular = Specular,
        Backing = Backing,
        SpectrumScale = ReflectanceScale.Fraction,
        XyzScale = ReflectanceScale.Percent,
    };

    public static CxfSpecification Read(XElement element)
    {
        XNamespace cc = element.Name.Namespace;
        XElement? tristimulus = element.Element(cc + "TristimulusSpec");
        XElement? measurement = element.Element(cc + "MeasurementSpec");
        XElement? illuminant = tristimulus?.Element(cc + "Illuminant");
        XElement? range = measurement?.Element(cc + "WavelengthRange") ?? element.Element(cc + "WavelengthRange");
        string light = illuminant?.Value.Trim() ?? "";
        return new CxfSpecification
        {
            Illuminant = light == "Custom" ? (string?)illuminant?.Attribute("Name") ?? light : light,
            Observer = tristimulus?.Element(cc + "Observer")?.Value.Trim() ?? "",
            StartNm = (string?)range?.Attribute("StartWL") ?? "",
            IncrementNm = (string?)range?.Attribute("Increment") ?? "",
            Specular = SpecularOf(measurement?.Element(cc + "GeometryChoice"), cc),
            Backing = measurement?.Element(cc + "Backing") is { } backing ? SwatchBacking.TryParse(backing.Value) : null,
            Source = measurement?.Element(cc + "Device") is null ? null : SwatchSource.Instrument,
        };
    }

    private static SpecularMode SpecularOf(XElement? geometry, XNamespace cc)
    {
        if (geometry?.Element(cc + "SphereGeometry") is { } sphere)
        {
            return SpecularModes.Words.MeaningOf(sphere.Value) ?? SpecularMode.Unknown;
        }
        // Seen at 45 degrees from the light or back, the mirror reflection is not collected.
        return geometry?.Element(cc + "SingleAngle") is null ? SpecularMode.Unknown : SpecularMode.Excluded;
    }
}
