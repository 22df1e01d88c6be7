using MixEngine.Core;
using MixEngine.Interchange;
using MixEngine.Service.Shelves;
using MixEngine.Storage;

namespace MixEngine.Service.Mapping;

/// <summary>A row of a painter's table, and what is stored of it.</summary>
internal static class EvidenceMapping
{
    /// <summary>To be stored.</summary>
    public static PaintEvidence FromRow(ShelfRow row) => new()
    {
        Name = row.Name,
        Range = row.Range.Length > 0 ? row.Range : null,
        Kind = row.Kind switch
        {
            StatedKind.Medium => PaintKind.Medium,
            StatedKind.Water => PaintKind.Water,
            _ => PaintKind.Paint,
        },
        Opacity = row.Opacity switch
        {
            StatedOpacity.Opaque => OpacityWord.Opaque,
            StatedOpacity.SemiOpaque => OpacityWord.SemiOpaque,
            StatedOpacity.SemiTransparent => OpacityWord.SemiTransparent,
            StatedOpacity.Transparent => OpacityWord.Transparent,
            _ => null,
        },
        Finish = row.Finish switch
        {
            StatedFinish.Matt => Finish.Matt,
            StatedFinish.Satin => Finish.Satin,
            StatedFinish.Gloss => Finish.Gloss,
            _ => null,
        },
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
        Kind = evidence.Kind switch
        {
            PaintKind.Medium => StatedKind.Medium,
            PaintKind.Water => StatedKind.Water,
            _ => StatedKind.Paint,
        },
        Opacity = evidence.Opacity switch
        {
            OpacityWord.Opaque => StatedOpacity.Opaque,
            OpacityWord.SemiOpaque => StatedOpacity.SemiOpaque,
            OpacityWord.SemiTransparent => StatedOpacity.SemiTransparent,
            OpacityWord.Transparent => StatedOpacity.Transparent,
            _ => null,
        },
        Finish = evidence.Finish switch
        {
            Finish.Matt => StatedFinish.Matt,
            Finish.Satin => StatedFinish.Satin,
            Finish.Gloss => StatedFinish.Gloss,
            _ => null,
        },
        Color = evidence.Color is { } color ? StoredColorText.Read(color) : null,
        DropsPerMl = evidence.DropsPerMl,
        MlLeft = evidence.MlLeft,
        Pigments = evidence.Pigments,
        Notes = evidence.Notes ?? "",
    };
}
