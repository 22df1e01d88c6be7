using MixEngine.Colorimetry;
using MixEngine.Core;
using MixEngine.Interchange;

namespace MixEngine.Planning.Tests;

/// <summary>The army of the demo, with its shelf and the trader's boat.</summary>
internal static class TideFolk
{
    public static Scheme Scheme { get; } = Read(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "tide-folk.toml")));

    public static IReadOnlyList<Paint> Shelf { get; } = Paints("coast.csv");

    public static IReadOnlyList<Paint> Boat { get; } = Paints("boat.csv");

    public static SchemeInput Input { get; } = InputOf(Scheme, Shelf);

    public static SchemeInput InputOf(Scheme scheme, IReadOnlyList<Paint> shelf) => new(
        scheme, shelf,
        scheme.Areas.Select(area => area.Area.Aim).OfType<AreaAim.Paints>().SelectMany(aim => aim.Recipes).Distinct().ToDictionary(name => name, name => Recipe.Of(shelf.Single(paint => paint.Name == name))))
    {
        OnTable = scheme.OnTable.Select(name => shelf.Single(paint => paint.Name == name).Id).ToHashSet(),
        Buyable = Boat,
    };

    public static Scheme Read(string text)
    {
        var result = SchemeReader.Read(text);
        Assert.True(result.Succeeded, string.Join("\n", result.Faults));
        return result.Table;
    }

    private static Paint[] Paints(string file)
    {
        using var stream = File.OpenRead(Path.Combine(AppContext.BaseDirectory, file));
        var result = TableReader.ReadShelf(stream, file);
        Assert.True(result.Succeeded, string.Join("\n", result.Faults));
        return [.. result.Table.Rows.Where(row => row.Color is not null).Select(PaintOf)];
    }

    private static Paint PaintOf(ShelfRow row)
    {
        var described = new Paint
        {
            Id = row.Name.Replace(' ', '-'), Name = row.Name, Optics = AbsorptionScattering.Clear, Grade = Grade.Color,
            Opacity = Enum.Parse<OpacityWord>(row.Opacity!.Value.ToString()), Finish = Enum.Parse<Finish>(row.Finish!.Value.ToString()),
            DropsPerMl = row.DropsPerMl, MlLeft = row.MlLeft, Pigments = row.Pigments,
        };
        return ColorGrade.Characterize(described, ((HexReading)row.Color!).Hex.ToXyz(), ViewingCondition.Default, ColorGrade.HexReading);
    }
}
