using System.Text;
using MixEngine.Colorimetry;

namespace MixEngine.Interchange.Tests;

/// <summary>Files as tests give them, and what is read from them.</summary>
internal static class Given
{
    public static ReadResult<ShelfTable> Shelf(string text, string fileName = "shelf.csv", ReadOptions? options = null) =>
        Shelf(Encoding.UTF8.GetBytes(text), fileName, options);

    public static ReadResult<ShelfTable> Shelf(byte[] bytes, string fileName = "shelf.csv", ReadOptions? options = null) =>
        TableReader.ReadShelf(new MemoryStream(bytes), fileName, options);

    public static ImportFault OnlyFault<T>(ReadResult<T> result) where T : class
    {
        Assert.Null(result.Table);
        return Assert.Single(result.Faults);
    }

    public static HexReading Hex(string hex) => new(HexColor.Parse(hex));

    public static ReadResult<SwatchTable> Swatches(string text, string fileName = "", ReadOptions? options = null) =>
        Swatches(Encoding.UTF8.GetBytes(text), fileName, options);

    public static ReadResult<SwatchTable> Swatches(byte[] bytes, string fileName = "", ReadOptions? options = null) =>
        Swatches(new MemoryStream(bytes), fileName, options);

    public static ReadResult<SwatchTable> Swatches(Stream stream, string fileName = "", ReadOptions? options = null) =>
        TableReader.ReadSwatches(stream, fileName, options);

    public static T Read<T>(ReadResult<T> result) where T : class
    {
        Assert.True(result.Succeeded, string.Join("\n", result.Faults));
        return result.Table;
    }

    public static byte[] Written(SwatchTable table, TableFormat format)
    {
        var stream = new MemoryStream();
        TableWriter.WriteSwatches(table, stream, format);
        return stream.ToArray();
    }

    public static byte[] Written(ShelfTable table, TableFormat format)
    {
        var stream = new MemoryStream();
        TableWriter.WriteShelf(table, stream, format);
        return stream.ToArray();
    }
}
