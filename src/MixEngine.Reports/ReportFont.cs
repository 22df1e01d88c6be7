using PdfSharp.Fonts;
using SkiaSharp;

namespace MixEngine.Reports;

/// <summary>The one typeface of pages and pictures, embedded so that they look the same on every machine.</summary>
internal sealed class ReportFont : IFontResolver
{
    public const string Family = "report";
    private const string Regular = "DejaVuSansCondensed.ttf";
    private const string Bold = "DejaVuSansCondensed-Bold.ttf";
    private static readonly Lazy<byte[]> RegularBytes = new(() => Read(Regular));
    private static readonly Lazy<byte[]> BoldBytes = new(() => Read(Bold));
    private static readonly Lock Registering = new();

    private ReportFont()
    {
    }

    /// <summary>A typeface for pictures; dispose it.</summary>
    public static SKTypeface Picture(bool bold)
    {
        using var data = SKData.CreateCopy((bold ? BoldBytes : RegularBytes).Value);
        return SKTypeface.FromData(data);
    }

    /// <summary>Lets PDFsharp, which asks once for the whole process, find the typeface.</summary>
    public static void Register()
    {
        lock (Registering)
        {
            GlobalFontSettings.FontResolver ??= new ReportFont();
        }
    }

    /// <inheritdoc/>
    public byte[]? GetFont(string faceName) => faceName == Bold ? BoldBytes.Value : RegularBytes.Value;

    /// <inheritdoc/>
    public FontResolverInfo? ResolveTypeface(string familyName, bool isBold, bool isItalic) => new(isBold ? Bold : Regular);

    private static byte[] Read(string name)
    {
        using var stream = typeof(ReportFont).Assembly.GetManifestResourceStream($"MixEngine.Reports.Fonts.{name}")!;
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}
