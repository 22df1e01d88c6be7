using CsCheck;
using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests;

/// <summary>Invented paints for tests, and generators of more.</summary>
internal static class InventedPaints
{
    public static Paint Of(string name, string hex, OpacityWord opacity = OpacityWord.Opaque) =>
        ColorGrade.Characterize(
            new Paint { Id = name.Replace(' ', '-'), Name = name, Opacity = opacity, Optics = AbsorptionScattering.Clear, Grade = Grade.Color },
            HexColor.Parse(hex).ToXyz(), ViewingCondition.Default, ColorGrade.HexReading);

    public static Paint TarredRope { get; } = Of("tarred rope", "#1b1a1c");
    public static Paint Kelp { get; } = Of("kelp", "#27402a");
    public static Paint SeaLettuce { get; } = Of("sea lettuce", "#6f8f4a", OpacityWord.SemiOpaque);
    public static Paint GullWhite { get; } = Of("gull white", "#f4f3ee");
    public static Paint Driftwood { get; } = Of("driftwood", "#8a6a4d");
    public static Paint Peat { get; } = Of("peat", "#5a3a28");
    public static Paint TidePool { get; } = Of("tide pool", "#1f8a8c", OpacityWord.SemiTransparent);
    public static Paint BuoyYellow { get; } = Of("buoy yellow", "#e0a81c", OpacityWord.SemiTransparent);

    public static IReadOnlyList<Paint> Shelf { get; } = [TarredRope, Kelp, SeaLettuce, GullWhite, Driftwood, Peat, TidePool, BuoyYellow];

    /// <summary>Any sRGB colour with any opacity word.</summary>
    public static readonly Gen<Paint> Any =
        Gen.Select(Gen.Byte, Gen.Byte, Gen.Byte, Gen.Enum<OpacityWord>(), Gen.Int[0, int.MaxValue])
            .Select((r, g, b, opacity, id) => Of($"p{id}", $"#{r:x2}{g:x2}{b:x2}", opacity));
}
