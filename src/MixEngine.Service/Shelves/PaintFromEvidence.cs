using MixEngine.Colorimetry;
using MixEngine.Core;
using MixEngine.Interchange;
using MixEngine.Service.Mapping;
using MixEngine.Storage;

namespace MixEngine.Service.Shelves;

/// <summary>From what was entered about a bottle to its paint.</summary>
public static class PaintFromEvidence
{
    /// <summary>The paint. Its remarks say what had to be assumed.</summary>
    public static Paint Derive(StoredPaint stored)
    {
        var evidence = stored.Evidence;
        var described = new Paint
        {
            Id = stored.Id,
            Name = evidence.Name,
            Range = evidence.Range,
            Kind = evidence.Kind,
            Opacity = evidence.Opacity,
            Finish = evidence.Finish,
            Optics = AbsorptionScattering.Clear,
            Grade = Grade.None,
            VolumeSolids = evidence.Kind == PaintKind.Water ? 0 : Paint.ConventionalVolumeSolids,
            DropsPerMl = evidence.DropsPerMl,
            MlLeft = evidence.MlLeft,
            Pigments = evidence.Pigments,
            Notes = evidence.Notes,
        };
        if (evidence.Kind != PaintKind.Paint)
        {
            return described;
        }

        var color = evidence.Color ?? throw new InvalidOperationException("A paint is stored without a colour.");
        return Characterize(described, StoredColorText.Read(color));
    }

    private static Paint Characterize(Paint described, ColorReading reading) => reading switch
    {
        HexReading { Hex: var hex } => ColorGrade.Characterize(described, hex.ToXyz(), ViewingCondition.Default, ColorGrade.HexReading),
        LabReading { Lab: var lab, Condition: var condition } => ColorGrade.Characterize(
            described, lab.ToXyz(TristimulusWeights.For(condition).White), condition, ColorGrade.LabReading),
        XyzReading { Xyz: var xyz, Condition: var condition } => ColorGrade.Characterize(described, xyz, condition, ColorGrade.LabReading),
        SpectrumReading spectrum => OfItsColor(described, SpectrumMapping.OnGrid(spectrum)),
        _ => throw new InvalidOperationException($"No way is known from a {reading.GetType().Name} to a paint."),
    };

    // Kept whole in the store; so far the engine learns from its colour.
    private static Paint OfItsColor(Paint described, Reflectance measured) =>
        ColorGrade.Characterize(
            described with { Remarks = ["A spectrum was given; its colour under D65 for 2 degrees is used so far."] },
            TristimulusWeights.For(ViewingCondition.Default).ToXyz(measured),
            ViewingCondition.Default,
            ColorGrade.LabReading);
}
