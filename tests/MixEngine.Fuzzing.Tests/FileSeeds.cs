using System.Text;
using MixEngine.Interchange;

namespace MixEngine.Fuzzing.Tests;

/// <summary>Sound files of every kind that is read, to be damaged. All paints are invented.</summary>
internal static class FileSeeds
{
    private const string Shelf = """
        name,hex,L,a,b,opacity,range,kind,finish,drops_per_ml,ml_left,pigments,notes
        tarred rope,#2b2320,,,,opaque,shore line,paint,matt,,17,PBk7 PBr7,
        kelp,#3f4a2b,,,,semi-opaque,shore line,paint,satin,22,0,PY42 PBk7,"settles; shake, then wait"
        sea lettuce,,61,-28,33,semi-transparent,shore line,paint,,,,,
        brine medium,,,,,,tide line,medium,,,,,
        """;

    private const string GermanShelf = "\uFEFFName;Hex;L;a;b;Opacity\r\n\"Dark, red\";;31,92;38,58;10;opaque\r\nkelp;3f4a2b;;;;\r\n";

    private const string WideSwatches = """
        id,of,backing,coats,source,date,R400,R420,R440,R460,R480,R500,R520,R540,R560,R580,R600,R620,R640,R660,R680,R700
        s1,1 kelp + 4 chalk cliff,,2,instrument,2024-03-01,0.31,0.33,0.36,0.4,0.44,0.5,0.55,0.56,0.54,0.5,0.47,0.45,0.44,0.44,0.45,0.46
        s2,kelp,black,1,instrument,2024-03-01,0.05,0.05,0.06,0.06,0.07,0.08,0.1,0.1,0.09,0.08,0.07,0.07,0.07,0.07,0.07,0.08
        """;

    private const string LongSwatches = """
        sample,of,wavelength_nm,reflectance
        a,kelp,400,0.050
        a,kelp,420,0.052
        a,kelp,440,0.054
        a,kelp,460,0.056
        a,kelp,480,0.058
        a,kelp,500,0.060
        a,kelp,520,0.062
        a,kelp,540,0.064
        a,kelp,560,0.066
        a,kelp,580,0.068
        a,kelp,600,0.070
        a,kelp,620,0.072
        a,kelp,640,0.074
        a,kelp,660,0.076
        a,kelp,680,0.078
        a,kelp,700,0.080
        """;

    /// <summary>Files of paints and of swatches, by the name they come under.</summary>
    public static IReadOnlyList<(string Name, byte[] Bytes)> Tables { get; } = [.. Written()];

    /// <summary>Schemes.</summary>
    public static IReadOnlyList<byte[]> Schemes { get; } = [Embedded("tide-folk.toml")];

    private static byte[] Embedded(string name) => Bytes(stream => typeof(FileSeeds).Assembly.GetManifestResourceStream(name)!.CopyTo(stream));

    private static IEnumerable<(string, byte[])> Written()
    {
        foreach (var (name, text) in new[] { ("a.csv", Shelf), ("b.csv", GermanShelf), ("c.csv", WideSwatches), ("d.csv", LongSwatches) })
        {
            yield return (name, Encoding.UTF8.GetBytes(text));
        }

        // What we write ourselves in the other formats.
        var shelf = Read(TableReader.ReadShelf(new MemoryStream(Encoding.UTF8.GetBytes(Shelf)), "a.csv"));
        var swatches = Read(TableReader.ReadSwatches(new MemoryStream(Encoding.UTF8.GetBytes(WideSwatches)), "c.csv"));
        yield return ("a.xlsx", Bytes(stream => TableWriter.WriteShelf(shelf, stream, TableFormat.Xlsx)));
        foreach (var format in Enum.GetValues<TableFormat>())
        {
            yield return ($"s.{format}".ToLowerInvariant(), Bytes(stream => TableWriter.WriteSwatches(swatches, stream, format)));
        }
    }

    private static T Read<T>(ReadResult<T> result) where T : class => result.Table ?? throw new InvalidOperationException(string.Join('\n', result.Faults));

    private static byte[] Bytes(Action<Stream> write)
    {
        var stream = new MemoryStream();
        write(stream);
        return stream.ToArray();
    }
}
