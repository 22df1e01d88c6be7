using MixEngine.Core;
using MixEngine.Interchange;
using MixEngine.Service.Shelves;
using MixEngine.Storage;

namespace MixEngine.Service.Mapping;

/// <summary>A row of a table of swatches, and what is stored of it.</summary>
internal static class SwatchRowMapping
{
    private static readonly (StatedFinish Stated, Finish Meant)[] Finishes =
        [(StatedFinish.Matt, Finish.Matt), (StatedFinish.Satin, Finish.Satin), (StatedFinish.Gloss, Finish.Gloss)];

    private static readonly (Interchange.SpecularMode Stated, Core.SpecularMode Meant)[] Modes =
    [
        (Interchange.SpecularMode.Unknown, Core.SpecularMode.NotStated),
        (Interchange.SpecularMode.Included, Core.SpecularMode.Included),
        (Interchange.SpecularMode.Excluded, Core.SpecularMode.Excluded),
    ];

    private static readonly (SwatchSource Stated, ReadingSource Meant)[] Sources =
        [(SwatchSource.Instrument, ReadingSource.Instrument), (SwatchSource.Photo, ReadingSource.Photo), (SwatchSource.Guess, ReadingSource.Guess)];

    /// <summary>To be stored.</summary>
    /// <param name="row">As read.</param>
    /// <param name="parts">What it is of.</param>
    /// <param name="table">Where other swatches stand that may be named as its backing.</param>
    public static SwatchEvidence FromRow(SwatchRow row, IReadOnlyList<StoredPart> parts, SwatchTable table) => new()
    {
        Parts = parts,
        Color = StoredColorText.Write(row.Color),
        Backing = Backing(row.Backing, table),
        Film = row.Film.Length > 0 ? row.Film : null,
        ThicknessUm = row.ThicknessUm,
        Coats = row.Coats,
        Dosing = row.Dosing == StatedDosing.Weighed ? Dosing.Weighed : Dosing.Drops,
        Source = row.Source is { } source ? Sources.First(known => known.Stated == source).Meant : null,
        Specular = Modes.First(mode => mode.Stated == row.Specular).Meant,
        Finish = row.Finish is { } finish ? Finishes.First(known => known.Stated == finish).Meant : null,
        Date = row.Date,
        Note = row.Note.Length > 0 ? row.Note : null,
    };

    /// <summary>To be written into a table. A backing that no cell can hold, such as a spectrum, stands in a row of its own, or in that of a swatch of the same colour.</summary>
    public static SwatchTable ToTable(IReadOnlyList<StoredSwatch> swatches)
    {
        var samples = new Dictionary<StoredColor, string>();
        foreach (var swatch in swatches)
        {
            samples.TryAdd(swatch.Evidence.Color, swatch.Id);
        }

        var rows = new List<SwatchRow>();
        var ids = swatches.Select(swatch => swatch.Id).ToHashSet();
        foreach (var backing in swatches.Select(swatch => swatch.Evidence.Backing).OfType<StoredColor>().Distinct())
        {
            if (!IsCard(backing) && StoredColorText.Read(backing) is SpectrumReading or XyzReading && !samples.ContainsKey(backing))
            {
                var id = Enumerable.Range(1, int.MaxValue - 1).Select(number => $"backing {number}").First(ids.Add);
                samples.Add(backing, id);
                rows.Add(new SwatchRow(0, id, id, StoredColorText.Read(backing)));
            }
        }

        rows.AddRange(swatches.Select(swatch => ToRow(swatch, samples)));
        return new SwatchTable(rows);
    }

    private static SwatchRow ToRow(StoredSwatch stored, Dictionary<StoredColor, string> samples)
    {
        var evidence = stored.Evidence;
        return new SwatchRow(0, stored.Id, SwatchMapping.RecipeText(evidence), StoredColorText.Read(evidence.Color))
        {
            Backing = evidence.Backing is { } backing ? Backing(backing, samples) : null,
            Film = evidence.Film ?? "",
            ThicknessUm = evidence.ThicknessUm,
            Coats = evidence.Coats,
            Dosing = evidence.Dosing == Dosing.Weighed ? StatedDosing.Weighed : null,
            Source = evidence.Source is { } source ? Sources.First(known => known.Meant == source).Stated : null,
            Specular = Modes.First(mode => mode.Meant == evidence.Specular).Stated,
            Finish = evidence.Finish is { } finish ? Finishes.First(known => known.Meant == finish).Stated : null,
            Date = evidence.Date,
            Note = evidence.Note ?? "",
        };
    }

    private static StoredColor? Backing(SwatchBacking? backing, SwatchTable table) => backing switch
    {
        null => null,
        { SampleId: { } id } => StoredColorText.Write(table.Rows.First(row => row.SampleId == id).Color),
        { Color: { } color } => StoredColorText.Write(color),
        _ => SwatchFromEvidence.ContrastCard.FirstOrDefault(card => card.Name == backing.Word) is { } card ? SwatchMapping.OfCard(card) : null,
    };

    private static SwatchBacking Backing(StoredColor stored, Dictionary<StoredColor, string> samples) => stored.Text switch
    {
        "black" => SwatchBacking.Black,
        "white" => SwatchBacking.White,
        _ => StoredColorText.Read(stored) is var reading and (HexReading or LabReading) ? SwatchBacking.OfColor(reading) : SwatchBacking.OfSample(samples[stored]),
    };

    private static bool IsCard(StoredColor color) => SwatchFromEvidence.ContrastCard.Any(card => card.Name == color.Text);
}
