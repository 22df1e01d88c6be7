using MixEngine.Core;

namespace MixEngine.Storage.Tests;

/// <summary>Invented paints of an invented coast.</summary>
internal static class Paints
{
    public static PaintEvidence Kelp { get; } = new()
    {
        Name = "kelp",
        Range = "shore line",
        Opacity = OpacityWord.SemiOpaque,
        Finish = Finish.Satin,
        Color = new StoredColor("#3c4a2e", "D65", 2),
        DropsPerMl = 22.5,
        MlLeft = 0,
        Pigments = ["PY42", "PBk7", "PB15:3"],
        Notes = "settles; shake",
    };

    public static PaintEvidence SeaLettuce { get; } = new() { Name = "sea lettuce", Color = new StoredColor("lab:61.5,-28.25,33", "D50", 10) };

    public static PaintEvidence Brine { get; } = new() { Name = "brine medium", Kind = PaintKind.Medium };
}
