using MixEngine.Colorimetry;
using MixEngine.Core;
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
        if (shelf.Learning.FitOf(stored.Id) is { } fit)
        {
            message.Fitted = ColorMapping.Write(fit.Fitted, condition);
            message.DeltaE00 = fit.DeltaE00;
            message.Surprise = fit.Surprise;
            message.Suspect = IsSuspect(fit);
        }

        return message;
    }

    /// <summary>Those of these swatches whose label should be checked, the likeliest first.</summary>
    public static IEnumerable<V1.SwatchFit> Suspects(Shelf shelf, IReadOnlyCollection<StoredSwatch> among) =>
        from fit in shelf.Learning.Result?.Suspects ?? []
        join stored in among on fit.Swatch.Id equals stored.Id
        select Write(stored, shelf);

    private static bool IsSuspect(SwatchFit fit) => fit.Surprise > SwatchFit.Suspicious;
}
