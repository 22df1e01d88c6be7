using CsCheck;
using MixEngine.Colorimetry;

namespace MixEngine.Interchange.Tests;

/// <summary>Generators of tables that may be written.</summary>
internal static class Some
{
    private static readonly Gen<string> Line =
        Gen.OneOf(
            Gen.String[Gen.Char["abcXYZ019 ,;\"'=+-@#_|./\\&<>%\u00e9\u6f22\u0416"], 1, 20],
            OneOf("sep=;", "NaN", "0", "-", "'", "''=x", "_x0041_", "1,5", "2024-01-02", "\ud83d\udc1a shell", "BEGIN_DATA", "name", "]]>", "TRUE", "#N/A"))
        .Select(s => s.Trim()).Where(s => s.Length > 0);

    private static readonly Gen<string> Notes = Gen.Select(Line, Line, Gen.Bool, (a, b, two) => two ? a + "\n" + b : a);

    private static Gen<string> Maybe(Gen<string> text) => Gen.Frequency((1, Gen.Const("")), (2, text));

    public static readonly Gen<HexReading> Hex = Gen.Select(Gen.Byte, Gen.Byte, Gen.Byte, (r, g, b) => new HexReading(new HexColor(r, g, b)));

    public static readonly Gen<ViewingCondition> Condition =
        Gen.Select(OneOf([.. Illuminant.All]), OneOf(Observer.Degree2, Observer.Degree10), (i, o) => new ViewingCondition(i, o));

    public static readonly Gen<LabReading> Lab =
        Gen.Select(Gen.Double[0, 100], Gen.Double[-150, 150], Gen.Double[-150, 150], Condition, (l, a, b, view) => new LabReading(new Lab(l, a, b), view));

    public static readonly Gen<XyzReading> Xyz =
        Gen.Select(Gen.Double[0, 120], Gen.Double[0, 100], Gen.Double[0, 150], Condition, (x, y, z, view) => new XyzReading(new Xyz(x, y, z), view));

    private static readonly Gen<double[]> Grid = OneOf(
        Every(380, 730, 10), Every(400, 700, 10), Every(360, 780, 5), Every(400, 700, 20), Every(380, 730, 1), [400.5, 410, 429.25, 440, 460, 480, 500, 520, 540, 560, 580, 600, 620, 640, 660, 680]);

    public static readonly Gen<SpectrumReading> Spectrum =
        Grid.SelectMany(nm => Gen.Double[0, 1].Array[nm.Length].Select(factors => new SpectrumReading(nm, factors)));

    public static readonly Gen<ColorReading> Color = Gen.OneOf(Hex.Select(c => (ColorReading)c), Lab.Select(c => (ColorReading)c), Xyz.Select(c => (ColorReading)c), Spectrum.Select(c => (ColorReading)c));

    public static readonly Gen<double?> Ml = Gen.OneOf(Gen.Const((double?)null), Gen.Double[0, 1000].Select(d => (double?)d));

    private static readonly Gen<ShelfRow> ShelfRow =
        Gen.Select(
            Gen.Select(Maybe(Line), Maybe(Notes), Line, Ml),
            Gen.Select(Color, Gen.Enum<StatedOpacity>(), Gen.Bool, Gen.Enum<StatedKind>()),
            Gen.Select(Gen.Enum<StatedFinish>(), Gen.Bool, Gen.Int[0, 3], Gen.Double[1, 200]),
            (text, paint, rest) => new ShelfRow(0, text.Item3)
            {
                Range = text.Item1,
                Notes = text.Item2,
                MlLeft = text.Item4,
                Color = paint.Item4 == StatedKind.Paint || paint.Item3 ? paint.Item1 : null,
                Opacity = paint.Item3 ? paint.Item2 : null,
                Kind = paint.Item4,
                Finish = rest.Item2 ? rest.Item1 : null,
                Pigments = [.. new[] { "PW6", "PBk7", "PB15:3" }.Take(rest.Item3)],
                DropsPerMl = rest.Item2 ? rest.Item4 : null,
            });

    public static readonly Gen<ShelfTable> ShelfTable =
        ShelfRow.List[0, 6].Select(rows => new ShelfTable([.. rows.Select((row, i) => row with { Name = $"{row.Name}{i}" })]));

    private static readonly Gen<LabReading> BackingLab =
        Gen.Select(Gen.Double[0, 100], Gen.Double[-150, 150], Gen.Double[-150, 150], Condition, (l, a, b, view) => new LabReading(new Lab(l, a, b), view));

    private static readonly Gen<SwatchBacking?> Backing = Gen.OneOf(
        OneOf<SwatchBacking?>(null, SwatchBacking.None, SwatchBacking.Black, SwatchBacking.White),
        Hex.Select(h => (SwatchBacking?)SwatchBacking.OfColor(h)),
        BackingLab.Select(l => (SwatchBacking?)SwatchBacking.OfColor(l)));

    private static readonly Gen<SwatchRow> SwatchRow =
        Gen.Select(
            Gen.Select(Line, Line, Maybe(Notes), Color),
            Gen.Select(Backing, Gen.Bool, Gen.Int[1, 100], Gen.Double[0.001, 10_000]),
            Gen.Select(Gen.Enum<StatedFinish>(), Gen.Enum<SpecularMode>(), Gen.Enum<SwatchSource>(), Gen.Int[0, 4000]),
            (text, film, rest) => new SwatchRow(0, text.Item1, text.Item2, text.Item4)
            {
                Note = text.Item3,
                Backing = film.Item1,
                Film = film.Item2 ? text.Item2 : "",
                Dosing = film.Item3 % 3 == 0 ? null : film.Item3 % 3 == 1 ? StatedDosing.Drops : StatedDosing.Weighed,
                Coats = film.Item2 ? film.Item3 : null,
                ThicknessUm = film.Item2 ? null : film.Item4,
                Finish = film.Item2 ? rest.Item1 : null,
                Specular = rest.Item2,
                Source = film.Item2 ? rest.Item3 : null,
                Date = rest.Item4 < 2000 ? null : new DateOnly(2020, 1, 1).AddDays(rest.Item4),
            });

    public static readonly Gen<SwatchTable> SwatchTable =
        SwatchRow.List[0, 6].Select(rows => new SwatchTable([.. rows.Select((row, i) => row with
        {
            SampleId = $"{row.SampleId}{i}",
            Backing = i > 0 && row.Coats is 7 or > 90 ? SwatchBacking.OfSample($"{rows[0].SampleId}0") : row.Backing,
        })]));

    /// <summary>At most two swatches, and spectra of few bands only.</summary>
    public static readonly Gen<SwatchTable> SmallSwatchTable = SwatchTable.Select(t => new SwatchTable([.. t.Rows.Where(IsSmall).Take(2).Select(r => r with { Backing = null })]));

    public static readonly Gen<ShelfTable> SmallShelfTable = ShelfTable.Select(t => new ShelfTable([.. t.Rows.Where(r => r.Color is not SpectrumReading { Factors.Count: > 40 }).Take(2)]));

    private static bool IsSmall(SwatchRow row) => row.Color is not SpectrumReading { Factors.Count: > 40 };

    private static Gen<T> OneOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static double[] Every(double first, double last, double step) => [.. Enumerable.Range(0, (int)((last - first) / step) + 1).Select(i => first + i * step)];
}
