namespace MixEngine.Interchange;

/// <summary>A file's bytes, bounded, and the format that they show.</summary>
internal sealed class FileContent
{
    private FileContent(ArraySegment<byte> bytes, TableFormat format, TextBytes? text) => (Bytes, Format, Text) = (bytes, format, text);

    public ArraySegment<byte> Bytes { get; }

    public TableFormat Format { get; }

    /// <summary>The text of a text format; null for a workbook.</summary>
    public TextBytes? Text { get; }

    /// <summary>Reads the stream to its end; null, with a fault logged, when it is too large or nothing we know.</summary>
    public static FileContent? Read(Stream stream, string fileName, int mostBytes, ImportLog log, CancellationToken cancel)
    {
        if (BytesOf(stream, mostBytes, log, cancel) is not { } bytes)
        {
            return null;
        }

        // The content tells; the name only where the content leaves it open.
        ReadOnlySpan<byte> start = bytes;
        string ending = Path.GetExtension(fileName).ToLowerInvariant();
        if (start.StartsWith("PK"u8))
        {
            return new FileContent(bytes, TableFormat.Xlsx, null);
        }
        if (start.StartsWith<byte>([0xD0, 0xCF, 0x11, 0xE0]))
        {
            log.FileFault("an old or protected workbook", "a workbook in .xlsx form, without a password", "Save it as .xlsx without a password, or as CSV.");
            return null;
        }
        if (IsXml(start))
        {
            return new FileContent(bytes, TableFormat.Cxf, null);
        }
        if (ending is ".cxf" or ".mxf" or ".xml" or ".xlsx" or ".xlsm" && bytes.Count > 0)
        {
            log.FileFault(fileName, ending.StartsWith(".xl", StringComparison.Ordinal) ? "a workbook" : "XML", "The file is not what its name says: give it the right ending, or export it again.");
            return null;
        }
        if (TextBytes.Recognise(bytes, log) is not { } text)
        {
            return null;
        }
        using TextReader beginning = text.Open();
        bool cgats = ending is ".cgats" or ".it8" || CgatsReader.Recognises(beginning);
        return new FileContent(bytes, cgats ? TableFormat.Cgats : TableFormat.Csv, text);
    }

    /// <summary>Whether the first character that is neither blank nor part of a byte order mark opens a tag.</summary>
    private static bool IsXml(ReadOnlySpan<byte> start) =>
        start.TrimStart<byte>([0xEF, 0xBB, 0xBF, 0xFE, 0xFF, 0, (byte)' ', (byte)'\t', (byte)'\r', (byte)'\n']).StartsWith("<"u8);

    private static ArraySegment<byte>? BytesOf(Stream stream, int mostBytes, ImportLog log, CancellationToken cancel)
    {
        var bytes = new MemoryStream();
        var buffer = new byte[81920];
        for (int read; (read = stream.Read(buffer)) > 0;)
        {
            cancel.ThrowIfCancellationRequested();
            bytes.Write(buffer, 0, read);
            if (bytes.Length > mostBytes)
            {
                string size = stream.CanSeek ? $"{stream.Length} bytes" : $"more than {mostBytes} bytes";
                log.FileFault(size, $"at most {mostBytes} bytes ({mostBytes >> 20} MiB)", "Split the file.");
                return null;
            }
        }
        return bytes.TryGetBuffer(out ArraySegment<byte> segment) ? segment : bytes.ToArray();
    }
}
