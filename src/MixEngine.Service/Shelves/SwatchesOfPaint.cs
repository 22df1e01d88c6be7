using MixEngine.Storage;

namespace MixEngine.Service.Shelves;

/// <summary>The swatches in which a paint takes part.</summary>
internal static class SwatchesOfPaint
{
    /// <summary>By the paint's own name, whether it is still on the shelf or not.</summary>
    public static IEnumerable<StoredSwatch> Of(this IEnumerable<StoredSwatch> swatches, string paint) =>
        swatches.Where(swatch => swatch.Evidence.Parts.Any(part => PaintLookup.IsSameName(part.Paint, paint)));
}
