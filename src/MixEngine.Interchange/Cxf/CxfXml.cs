using System.Xml;
using System.Xml.Linq;

namespace MixEngine.Interchange;

/// <summary>The XML of a CxF file, read in bounds: no document type, no entities but the five of XML, nothing fetched.</summary>
internal static class CxfXml
{
    public const string Namespace = "http://colorexchangeformat.com/CxF3-core";

    private const int MostElements = 5_000_000;
    private const int DeepestElement = 64;

    public static XmlReader Open(ArraySegment<byte> bytes) => XmlReader.Create(
        new MemoryStream(bytes.Array!, bytes.Offset, bytes.Count, writable: false),
        new XmlReaderSettings
        {
            DtdProcessing = DtdProcessing.Prohibit,
            XmlResolver = null,
            MaxCharactersInDocument = ImportLimits.SwatchBytes,
            IgnoreComments = true,
            IgnoreProcessingInstructions = true,
            IgnoreWhitespace = true,
        });

    /// <summary>Walks through the whole file, so that it is known to be well formed and of bearable size and depth. False, with a fault logged, when it is not.</summary>
    public static bool Check(ArraySegment<byte> bytes, ImportLog log, CancellationToken cancel)
    {
        using XmlReader xml = Open(bytes);
        int elements = 0;
        while (xml.Read())
        {
            if (xml.NodeType != XmlNodeType.Element)
            {
                continue;
            }
            cancel.ThrowIfCancellationRequested();
            if (elements++ == 0 && !IsRoot(xml, log))
            {
                return false;
            }
            if (elements > MostElements || xml.Depth > DeepestElement)
            {
                log.Fault(LineOf(xml), xml.LocalName, elements > MostElements ? $"more than {MostElements} elements" : $"elements {xml.Depth} deep",
                    $"at most {MostElements} elements, {DeepestElement} deep", "Split the file, or export it again.");
                return false;
            }
        }
        return true;
    }

    /// <summary>The elements of one name inside a collection, one by one.</summary>
    public static IEnumerable<XElement> Elements(ArraySegment<byte> bytes, string collection, string name)
    {
        using XmlReader xml = Open(bytes);
        xml.MoveToContent();
        string ns = xml.NamespaceURI;
        while (xml.ReadToFollowing(collection, ns))
        {
            using XmlReader inside = xml.ReadSubtree();
            bool more = inside.ReadToDescendant(name, ns);
            while (more)
            {
                using (XmlReader element = inside.ReadSubtree())
                {
                    yield return XElement.Load(element, LoadOptions.SetLineInfo);
                }
                more = inside.ReadToNextSibling(name, ns);
            }
        }
    }

    public static int LineOf(object node) => node is IXmlLineInfo info && info.HasLineInfo() ? info.LineNumber : 0;

    private static bool IsRoot(XmlReader xml, ImportLog log)
    {
        if (xml.LocalName == "CxF" && xml.NamespaceURI is Namespace or "")
        {
            return true;
        }
        log.Fault(LineOf(xml), "root element", xml.LocalName == "CxF" ? xml.NamespaceURI : xml.LocalName, $"CxF of {Namespace}",
            xml.LocalName == "CxF" ? "Export the file as CxF version 3." : "This is no CxF file: use CxF 3, CGATS, CSV or .xlsx.");
        return false;
    }
}
