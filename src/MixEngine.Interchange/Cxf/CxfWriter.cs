using System.Globalization;
using System.Xml;
using MixEngine.Colorimetry;

namespace MixEngine.Interchange;

/// <summary>
/// Writes swatches as CxF 3 [ISO17972-1]. What the format has no element for stands in tags.
/// Evenly stepped spectra become a ReflectanceSpectrum, others a CustomSpectrum.
/// </summary>
internal sealed class CxfWriter
{
    // The schema lets a ReflectanceSpectrum begin only between these wavelengths.
    private const double EarliestStartNm = 360;
    private const double LatestStartNm = 400;

    /// <summary>What one ColorSpecification says; the key by which objects share it.</summary>
    private sealed record Specification(ViewingCondition? Condition, int StartNm, int IncrementNm, string MeasurementType, SpecularMode Specular);

    private readonly Dictionary<Specification, string> _specifications = [];
    private readonly XmlWriter _xml;
    private readonly string _created;

    private CxfWriter(XmlWriter xml, DateOnly created)
    {
        _xml = xml;
        _created = Stamp(created);
    }

    public static void Write(SwatchTable table, Stream stream, DateOnly created)
    {
        using var xml = XmlWriter.Create(stream, new XmlWriterSettings { Encoding = TextBytes.Utf8, Indent = true, NewLineChars = "\n", CloseOutput = false });
        new CxfWriter(xml, created).WriteFile(table);
    }

    private void WriteFile(SwatchTable table)
    {
        _xml.WriteStartElement("cc", "CxF", CxfXml.Namespace);
        Start("FileInformation");
        Text("Creator", "MixEngine");
        Text("CreationDate", _created);
        Text("Description", "Swatches of paints");
        End();
        Start("Resources");
        Start("ObjectCollection");
        foreach (SwatchRow row in table.Rows)
        {
            WriteObject(row);
        }
        End();
        Start("ColorSpecificationCollection");
        foreach ((Specification specification, string id) in _specifications)
        {
            WriteSpecification(specification, id);
        }
        End();
        End();
        End();
    }

    private void WriteObject(SwatchRow row)
    {
        Cell[] described = SwatchTableWriter.Described(row);
        Start("Object");
        _xml.WriteAttributeString("ObjectType", "Standard");
        _xml.WriteAttributeString("Name", described[1].Text);
        _xml.WriteAttributeString("Id", described[0].Text);
        Text("CreationDate", row.Date is { } date ? Stamp(date) : _created);
        Start("ColorValues");
        WriteColor(row);
        End();

        Start("TagCollection");
        _xml.WriteAttributeString("Name", CxfSwatches.Tags);
        for (int i = 2; i < described.Length; i++)
        {
            if (!described[i].IsBlank)
            {
                Start("Tag");
                _xml.WriteAttributeString("Name", SwatchTableWriter.DescribedHeadings[i].Text);
                _xml.WriteAttributeString("Value", described[i].Text);
                End();
            }
        }
        End();
        End();
    }

    private void WriteColor(SwatchRow row)
    {
        switch (row.Color)
        {
            case HexReading { Hex: var hex }:
                StartColor("ColorSRGB", new Specification(ViewingCondition.Default, 0, 0, "Colorimetric_Reflectance", row.Specular));
                Numbers(("R", hex.R), ("G", hex.G), ("B", hex.B));
                break;
            case LabReading { Lab: var lab, Condition: var view }:
                StartColor("ColorCIELab", new Specification(view, 0, 0, "Colorimetric_Reflectance", row.Specular));
                Numbers(("L", lab.L), ("A", lab.A), ("B", lab.B));
                break;
            case XyzReading { Xyz: var xyz, Condition: var view }:
                StartColor("ColorCIEXYZ", new Specification(view, 0, 0, "Colorimetric_Reflectance", row.Specular));
                Numbers(("X", xyz.X), ("Y", xyz.Y), ("Z", xyz.Z));
                break;
            case SpectrumReading spectrum when EvenStep(spectrum.WavelengthsNm) is { } step:
                StartColor("ReflectanceSpectrum", new Specification(null, (int)spectrum.WavelengthsNm[0], step, "Spectrum_Reflectance", row.Specular));
                _xml.WriteString(string.Join(' ', spectrum.Factors.Select(NumberText.Write)));
                break;
            case SpectrumReading spectrum:
                StartColor("CustomSpectrum", new Specification(null, 0, 0, "Spectrum_Custom", row.Specular));
                foreach ((double nm, double factor) in spectrum.WavelengthsNm.Zip(spectrum.Factors))
                {
                    Start("SpectralPoint");
                    _xml.WriteAttributeString("WL", NumberText.Write(nm));
                    _xml.WriteString(NumberText.Write(factor));
                    End();
                }
                break;
        }
        End();
    }

    private void StartColor(string name, Specification specification)
    {
        if (!_specifications.TryGetValue(specification, out string? id))
        {
            _specifications.Add(specification, id = string.Create(CultureInfo.InvariantCulture, $"CS{_specifications.Count + 1}"));
        }
        Start(name);
        if (specification.StartNm > 0)
        {
            _xml.WriteAttributeString("StartWL", NumberText.Write(specification.StartNm));
        }
        _xml.WriteAttributeString("ColorSpecification", id);
    }

    private void WriteSpecification(Specification specification, string id)
    {
        Start("ColorSpecification");
        _xml.WriteAttributeString("Id", id);
        if (specification.Condition is { } view)
        {
            Start("TristimulusSpec");
            WriteIlluminant(view.Illuminant.Name);
            Text("Observer", view.Observer == Observer.Degree2 ? "2_Degree" : "10_Degree");
            Text("Method", "unknown");
            End();
        }
        Start("MeasurementSpec");
        Text("MeasurementType", specification.MeasurementType);
        Start("GeometryChoice");
        if (specification.Specular == SpecularMode.Unknown)
        {
            Text("UnknownGeometry", "not stated");
        }
        else
        {
            Text("SphereGeometry", specification.Specular == SpecularMode.Included ? "Specular_Included" : "Specular_Excluded");
        }
        End();
        if (specification.IncrementNm > 0)
        {
            Start("WavelengthRange");
            _xml.WriteAttributeString("StartWL", NumberText.Write(specification.StartNm));
            _xml.WriteAttributeString("Increment", NumberText.Write(specification.IncrementNm));
            End();
        }
        End();
        End();
    }

    /// <summary>The format lists A, D50, D55, D65 and D75, and fluorescent lamps without the L; others are custom, with their name beside.</summary>
    private void WriteIlluminant(string name)
    {
        Start("Illuminant");
        if (name.StartsWith("LED", StringComparison.Ordinal))
        {
            _xml.WriteAttributeString("Name", name);
            name = "Custom";
        }
        _xml.WriteString(name.Replace("FL", "F", StringComparison.Ordinal));
        End();
    }

    /// <summary>The step of a grid that whole nanometres describe exactly; null for any other.</summary>
    private static int? EvenStep(IReadOnlyList<double> nm)
    {
        double step = nm[1] - nm[0];
        bool whole = nm[0] == Math.Round(nm[0]) && step == Math.Round(step) && nm[0] is >= EarliestStartNm and <= LatestStartNm;
        return whole && nm.Select((n, i) => n == nm[0] + i * step).All(even => even) ? (int)step : null;
    }

    private static string Stamp(DateOnly date) => DateText.Write(date) + "T00:00:00";

    private void Numbers(params ReadOnlySpan<(string Name, double Value)> parts)
    {
        foreach ((string name, double value) in parts)
        {
            Text(name, NumberText.Write(value));
        }
    }

    private void Start(string name) => _xml.WriteStartElement("cc", name, CxfXml.Namespace);

    private void Text(string name, string text) => _xml.WriteElementString("cc", name, CxfXml.Namespace, text);

    private void End() => _xml.WriteEndElement();
}
