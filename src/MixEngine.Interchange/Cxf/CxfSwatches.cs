using System.Xml;
using System.Xml.Linq;

namespace MixEngine.Interchange;

/// <summary>From the objects of a CxF 3 file [ISO17972-1] to swatches.</summary>
internal static class CxfSwatches
{
    /// <summary>The collection of tags in which we keep what the format has no element for.</summary>
    public const string Tags = "Swatch";

    private static readonly Column[] Described =
    [
        SwatchColumns.SampleId, SwatchColumns.Of, .. SwatchColumns.About,
        ColorColumns.Hex, ColorColumns.L, ColorColumns.A, ColorColumns.B, ColorColumns.X, ColorColumns.Y, ColorColumns.Z, ColorColumns.Illuminant, ColorColumns.Observer,
    ];

    public static void Read(ArraySegment<byte> bytes, SwatchDrafts drafts, ImportLog log, CancellationToken cancel)
    {
        try
        {
            if (CxfXml.Check(bytes, log, cancel))
            {
                ReadObjects(bytes, drafts, log, cancel);
            }
        }
        catch (XmlException e)
        {
            log.Fault(e.LineNumber, "XML", e.Message, "well-formed XML without a document type", "The file is damaged or not meant for exchange: export it again.");
        }
    }

    private static void ReadObjects(ArraySegment<byte> bytes, SwatchDrafts drafts, ImportLog log, CancellationToken cancel)
    {
        var specifications = new Dictionary<string, CxfSpecification>(StringComparer.Ordinal);
        foreach (XElement element in CxfXml.Elements(bytes, "ColorSpecificationCollection", "ColorSpecification"))
        {
            specifications[(string?)element.Attribute("Id") ?? ""] = CxfSpecification.Read(element);
        }

        Headings headings = Headings.Read(new RawRow(0, [.. Described.Select(c => new Cell(c.Name))]), Described, log);
        int number = 0, without = 0, several = 0;
        foreach (XElement element in CxfXml.Elements(bytes, "ObjectCollection", "Object"))
        {
            cancel.ThrowIfCancellationRequested();
            if (++number > ImportLimits.Rows)
            {
                log.Fault(CxfXml.LineOf(element), "file", $"more than {ImportLimits.Rows} objects", $"at most {ImportLimits.Rows} objects", "Split the file.");
                return;
            }
            var item = new CxfObject(element, specifications);
            if (item.HasNoColors)
            {
                without++;
                continue;
            }
            several += item.SpectrumCount > 1 ? 1 : 0;
            Add(item, new RowFields(headings, item.Row(Described), log), number, drafts);
        }
        if (without > 0)
        {
            log.Note($"Left out {Counted.Of(without, "object", "objects")} without a measured colour.");
        }
        if (several > 0)
        {
            log.Note($"{Counted.Of(several, "object has", "objects have")} several spectra (measurement conditions): the first was taken.");
        }
    }

    private static void Add(CxfObject item, RowFields row, int number, SwatchDrafts drafts)
    {
        SwatchRow swatch = SwatchFields.Read(row, number, item.Specification.Defaults);
        var color = new ColorFields(row.Headings, drafts.Colors, item.Specification.Defaults);
        ColorDraft? draft = item.SpectrumCount > 0
            ? item.Spectrum(row.Log) is { } spectrum ? color.Gathered(row, spectrum.WavelengthsNm, spectrum.Values) : null
            : color.Read(row);
        if (draft is not null)
        {
            drafts.Add(swatch, draft);
        }
        else if (item.SpectrumCount == 0 && ColorFields.StatesNone(row))
        {
            row.Log.Fault(row.Line, "ColorValues", item.ColorNames, "a ReflectanceSpectrum, CustomSpectrum, ColorCIELab, ColorCIEXYZ or ColorSRGB", "Export the object with one of these.");
        }
    }
}
