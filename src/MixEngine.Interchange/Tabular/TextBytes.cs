using System.Text;

namespace MixEngine.Interchange;

/// <summary>A file's bytes, once it is known in which encoding they are text.</summary>
internal sealed class TextBytes
{
    /// <summary>UTF-8 without a byte order mark, strict in both directions.</summary>
    public static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    private readonly ArraySegment<byte> _bytes;
    private readonly Encoding _encoding;

    private TextBytes(ArraySegment<byte> bytes, Encoding encoding) => (_bytes, _encoding) = (bytes, encoding);

    /// <summary>
    /// Tells the encoding by the byte order mark, else UTF-8, else Windows-1252 (what spreadsheets of western Europe save as CSV).
    /// Null, with a fault logged, where it is no text.
    /// </summary>
    public static TextBytes? Recognise(ArraySegment<byte> bytes, ImportLog log)
    {
        ReadOnlySpan<byte> span = bytes;
        if (span.StartsWith(Encoding.Unicode.Preamble))
        {
            return new TextBytes(bytes[2..], Encoding.Unicode);
        }
        if (span.StartsWith(Encoding.BigEndianUnicode.Preamble))
        {
            return new TextBytes(bytes[2..], Encoding.BigEndianUnicode);
        }
        if (span.Contains((byte)0))
        {
            log.FileFault("zero bytes", "text", "This is no text, or UTF-16 without its mark: save it as CSV in UTF-8, or as .xlsx.");
            return null;
        }
        bool marked = span.StartsWith(Encoding.UTF8.Preamble);
        if (System.Text.Unicode.Utf8.IsValid(span))
        {
            return new TextBytes(marked ? bytes[3..] : bytes, Utf8);
        }
        if (marked)
        {
            log.FileFault("bytes that are no UTF-8", "UTF-8, as the file's first three bytes say", "Save the file again as UTF-8.");
            return null;
        }
        log.Note("The file is not UTF-8: read as Windows-1252. Check letters with accents.");
        return new TextBytes(bytes, CodePagesEncodingProvider.Instance.GetEncoding(1252)!);
    }

    /// <summary>Reads the text from its beginning.</summary>
    public TextReader Open() =>
        new StreamReader(new MemoryStream(_bytes.Array!, _bytes.Offset, _bytes.Count, writable: false), _encoding, detectEncodingFromByteOrderMarks: false);
}
