using CsCheck;
using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Planning.Tests;

/// <summary>Invented paints and demands.</summary>
internal static class Coast
{
    public static Paint Of(string name, string hex, OpacityWord opacity = OpacityWord.Opaque) =>
        ColorGrade.Characterize(
            new Paint { Id = name.Replace(' ', '-'), Name = name, Opacity = opacity, Optics = AbsorptionScattering.Clear, Grade = Grade.Color },
            HexColor.Parse(hex).ToXyz(), ViewingCondition.Default, ColorGrade.HexReading);

    public static IReadOnlyList<Paint> Shelf { get; } =
    [
        Of("tarred rope", "#1b1a1c"), Of("kelp", "#27402a"), Of("sea lettuce", "#6f8f4a", OpacityWord.SemiOpaque), Of("gull white", "#f4f3ee"),
        Of("driftwood", "#8a6a4d"), Of("peat", "#5a3a28"), Of("tide pool", "#1f8a8c", OpacityWord.SemiTransparent), Of("buoy yellow", "#e0a81c", OpacityWord.SemiTransparent),
        Of("crab shell", "#b8452f", OpacityWord.SemiOpaque), Of("wet slate", "#4a545e"), Of("sail cloth", "#cdbf9f"), Of("sea holly", "#5d6ea8", OpacityWord.SemiTransparent),
    ];

    /// <summary>A scheme that asks for colours alone; paints per mix and drops as given.</summary>
    public static SchemeInput Asking(IReadOnlyList<Paint> shelf, int paintsPerMix, int drops, double tolerance, params string[] onTable) =>
        new(new Scheme { Name = "test", Figures = [], PaintsPerMix = paintsPerMix, Drops = drops, Tolerance = tolerance }, shelf, new Dictionary<string, Recipe>())
        {
            OnTable = onTable.ToHashSet(),
        };

    public static readonly Gen<Demand> AnyDemand =
        Gen.Select(Gen.Double[15, 85], Gen.Double[-25, 35], Gen.Double[-25, 45]).Select((l, a, b) => new Demand("any", new Lab(l, a, b)));
}
