using MixEngine.Core;
using MixEngine.Service.Shelves;
using MixEngine.Storage;

namespace MixEngine.Service.Mapping;

/// <summary>What became of the paints of swatches, as answered.</summary>
internal static class PaintChangeMapping
{
    /// <summary>One entry for each paint that takes part in these swatches, in the order of the shelf.</summary>
    public static IEnumerable<V1.PaintChange> Write(Shelf before, Shelf after, IEnumerable<SwatchEvidence> swatches)
    {
        var names = swatches.SelectMany(swatch => swatch.Parts).Select(part => part.Paint).Distinct().ToArray();
        foreach (var paint in after.Paints.Where(paint => paint.Kind == PaintKind.Paint && names.Any(name => PaintLookup.IsName(paint, name))))
        {
            var change = new V1.PaintChange
            {
                PaintId = paint.Id,
                Paint = paint.Name,
                GradeAfter = Words.Grade.For(paint.Grade),
                ErrorAfter = ColorMapping.Write(ErrorOf(paint, after)),
            };
            if (before.Paints.FirstOrDefault(known => known.Id == paint.Id) is { } known)
            {
                change.GradeBefore = Words.Grade.For(known.Grade);
                change.ErrorBefore = ColorMapping.Write(ErrorOf(known, before));
            }

            yield return change;
        }
    }

    // What painters do most with a paint: lighten it; a white is judged by what tints it.
    private static ExpectedError ErrorOf(Paint paint, Shelf shelf)
    {
        var byLightness = shelf.Paints.Where(other => other.Kind == PaintKind.Paint).OrderBy(other => Prediction.LabOf(Recipe.Of(other), View.Default).L).ToArray();
        var partner = byLightness[^1].Id != paint.Id ? byLightness[^1] : byLightness[0];
        return Prediction.Of(partner.Id == paint.Id ? Recipe.Of(paint) : new Recipe([new Part(paint, 1), new Part(partner, 1)]), View.Default).ExpectedError;
    }
}
