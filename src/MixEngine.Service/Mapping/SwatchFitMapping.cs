using MixEngine.Colorimetry;
using MixEngine.Service.Shelves;
using MixEngine.Storage;

namespace MixEngine.Service.Mapping;

/// <summary>How well swatches agree, as answered.</summary>
internal static class SwatchFitMapping
{
    /// <summary>A swatch of a shelf and what is to be said of it.</summary>
    public static V1.SwatchFit Write(StoredSwatch stored, Shelf shelf)
    {
        var measured = SwatchFromEvidence.Color(stored.Evidence.Color);
        var condition = measured.Condition ?? ViewingCondition.D65Degree10;
        var message = new V1.SwatchFit
        {
            Swatch = SwatchMapping.Write(stored),
            Measured = ColorMapping.Write(measured.LabUnder(condition), condition),
            Remark = shelf.Learning.RemarkOn(stored.Id) ?? "",
        };
        return message;
    }
}
