using MixEngine.Colorimetry;
using MixEngine.Core;
using MixEngine.Interchange;
using MixEngine.Storage;

namespace MixEngine.Service.Shelves;

/// <summary>From what was said of a swatch to what the engine learns from.</summary>
internal static class SwatchFromEvidence
{
    /// <summary>The texts that stand for a contrast card in <see cref="SwatchEvidence.Backing"/>.</summary>
    public static IReadOnlyList<Primer> ContrastCard { get; } = [Primer.Black, Primer.White];

    /// <summary>The swatch; null where a paint of its recipe is not found by its name.</summary>
    public static Swatch? Derive(StoredSwatch stored, Func<string, Paint?> find, out string? missing)
    {
        var evidence = stored.Evidence;
        var parts = new List<SwatchPart>();
        missing = null;
        foreach (var part in evidence.Parts)
        {
            if (find(part.Paint) is not { } paint)
            {
                missing = part.Paint;
                return null;
            }

            parts.Add(new SwatchPart(paint.Id, part.Parts));
        }

        return new Swatch
        {
            Id = stored.Id,
            Parts = parts,
            Color = Color(evidence.Color),
            Backing = evidence.Backing is { } backing ? Backing(backing) : null,

            // Of one film are only those of one recipe.
            FilmId = evidence.Film is { } film ? $"{film}: {string.Join(" + ", parts.Order(Comparer<SwatchPart>.Create((a, b) => string.CompareOrdinal(a.PaintId, b.PaintId))))}" : null,
            ThicknessUm = evidence.ThicknessUm,
            CountedCoats = evidence.Coats,
            Dosing = evidence.Dosing,
            Source = evidence.Source ?? (StoredColorText.Read(evidence.Color) is SpectrumReading ? ReadingSource.Instrument : ReadingSource.Guess),
            Specular = evidence.Specular,
            Finish = evidence.Finish,
            Date = evidence.Date,
            Note = evidence.Note,
        };
    }

    /// <summary>A stored colour as it was measured.</summary>
    public static MeasuredColor Color(StoredColor stored) => StoredColorText.Read(stored) switch
    {
        HexReading { Hex: var hex } => FromXyz(hex.ToXyz(), ViewingCondition.Default),
        LabReading { Lab: var lab, Condition: var condition } => MeasuredColor.Of(lab, condition),
        XyzReading { Xyz: var xyz, Condition: var condition } => FromXyz(xyz, condition),
        SpectrumReading { Resampled: var resampled } => MeasuredColor.Of(resampled.Reflectance, OnGrid(resampled.FirstMeasuredNm, up: true), OnGrid(resampled.LastMeasuredNm, up: false)),
        var other => throw new InvalidOperationException($"No way is known from a {other.GetType().Name} to a swatch."),
    };

    private static MeasuredColor Backing(StoredColor stored) => ContrastCard.FirstOrDefault(card => card.Name == stored.Text) is { } card
        ? MeasuredColor.Of(Reflectance.Constant(card.MeasuredReflectance))
        : Color(stored);

    // A screen's white is a perfect white but for the last digits.
    private static MeasuredColor FromXyz(Xyz xyz, ViewingCondition condition)
    {
        var lab = Lab.FromXyz(xyz, TristimulusWeights.For(condition).White);
        return MeasuredColor.Of(lab with { L = Math.Clamp(lab.L, 0, 100) }, condition);
    }

    // The first or last band within what was measured.
    private static int OnGrid(double nm, bool up)
    {
        var steps = (nm - SpectralGrid.FirstNm) / SpectralGrid.StepNm;
        return Math.Clamp(SpectralGrid.FirstNm + SpectralGrid.StepNm * (int)(up ? Math.Ceiling(steps) : Math.Floor(steps)), SpectralGrid.FirstNm, SpectralGrid.LastNm);
    }
}
