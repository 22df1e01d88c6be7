using MixEngine.Core;
using MixEngine.Interchange;
using MixEngine.Service.Shelves;
using MixEngine.Storage;

namespace MixEngine.Service.Mapping;

/// <summary>A row of a painter's table, and what is stored of it.</summary>
internal static class EvidenceMapping
{
    private static readonly (StatedKind Stated, PaintKind Meant)[] Kinds =
        [(StatedKind.Paint, PaintKind.Paint), (StatedKind.Medium, PaintKind.Medium), (StatedKind.Water, PaintKind.Water)];

    private static readonly (StatedOpacity Stated, OpacityWord Meant)[] Opacities =
    [
        (StatedOpacity.Opaque, OpacityWord.Opaque),
        (StatedOpacity.SemiOpaque, OpacityWord.SemiOpaque),
        (StatedOpacity.SemiTransparent, OpacityWord.SemiTransparent),
        (StatedOpacity.Transparent, OpacityWord.Transparent),
    ];

    private static readonly (StatedFinish Stated, Finish Meant)[] Finishes =
        [(StatedFinish.Matt, Finish.Matt), (StatedFinish.Satin, Finish.Satin), (StatedFinish.Gloss, Finish.Gloss)];

    /// <summary>To be stored.</summary>
    public static PaintEvidence FromRow(ShelfRow row) => new()
    {
        Name = row.Name,
        Range = row.Range.Length > 0 ? row.Range : null,
        Kind = Kinds.First(kind => kind.Stated == row.Kind).Meant,
        Opacity = row.Opacity is { } opacity ? Opacities.First(known => known.Stated == opacity).Meant : null,
        Finish = row.Finish is { } finish ? Finishes.First(known => known.Stated == finish).Meant : null,
        Color = row.Color is { } color ? StoredColorText.Write(color) : null,
        DropsPerMl = row.DropsPerMl,
        MlLeft = row.MlLeft,
        Pigments = row.Pigments,
        Notes = row.Notes.Length > 0 ? row.Notes : null,
    };

    /// <summary>To be written into a table.</summary>
    public static ShelfRow ToRow(PaintEvidence evidence) => new(0, evidence.Name)
    {
        Range = evidence.Range ?? "",
        Kind = Kinds.First(kind => kind.Meant == evidence.Kind).Stated,
        Opacity = evidence.Opacity is { } opacity ? Opacities.First(known => known.Meant == opacity).Stated : null,
        Finish = evidence.Finish is { } finish ? Finishes.First(known => known.Meant == finish).Stated : null,
        Color = evidence.Color is { } color ? StoredColorText.Read(color) : null,
        DropsPerMl = evidence.DropsPerMl,
        MlLeft = evidence.MlLeft,
        Pigments = evidence.Pigments,
        Notes = evidence.Notes ?? "",
    };
}
