using System.Globalization;

namespace MixEngine.Core;

/// <summary>One measured dry colour of something known. Immutable; it is never altered by a refit.</summary>
public sealed record Swatch
{
    /// <summary>Unique among the swatches of a shelf.</summary>
    public required string Id { get; init; }

    /// <summary>What was stirred together: one part for a masstone.</summary>
    public required IReadOnlyList<SwatchPart> Parts { get; init; }

    /// <summary>What was read.</summary>
    public required MeasuredColor Color { get; init; }

    /// <summary>What was read of the bare ground beneath the film; null: the layer hides it.</summary>
    public MeasuredColor? Backing { get; init; }

    /// <summary>Swatches of one film drawn down over several grounds carry one name: they share its thickness.</summary>
    public string? FilmId { get; init; }

    /// <summary>Dry thickness in µm, where known.</summary>
    public double? ThicknessUm { get; init; }

    /// <summary>Coats of the film, where counted: what is known of its thickness where none was measured.</summary>
    public int? CountedCoats { get; init; }

    /// <summary>How the parts were measured out.</summary>
    public Dosing Dosing { get; init; }

    /// <summary>Where the colour was read.</summary>
    public ReadingSource Source { get; init; }

    /// <summary>Whether the surface reflection was taken in.</summary>
    public SpecularMode Specular { get; init; }

    /// <summary>The finish of the dry film, where stated.</summary>
    public Finish? Finish { get; init; }

    /// <summary>When it was read.</summary>
    public DateOnly? Date { get; init; }

    /// <summary>The owner's note.</summary>
    public string? Note { get; init; }

    /// <summary>Makes sure that the swatch says something that can be true.</summary>
    /// <exception cref="ArgumentException">Names the swatch, the field and the value at fault, and what to do.</exception>
    public void Check()
    {
        if (Parts.Count == 0)
        {
            throw Fault("has no parts; name the paint it shows", nameof(Parts));
        }

        foreach (var part in Parts)
        {
            if (!(part.Parts > 0) || !double.IsFinite(part.Parts))
            {
                throw Fault($"has {part.Parts.ToString(CultureInfo.InvariantCulture)} parts of '{part.PaintId}'; a number above 0 is needed, or leave that paint out", nameof(Parts));
            }
        }

        var twice = Parts.GroupBy(part => part.PaintId).FirstOrDefault(group => group.Count() > 1);
        if (twice is not null)
        {
            throw Fault($"names '{twice.Key}' twice; add its parts together", nameof(Parts));
        }

        if (ThicknessUm is { } thickness && (!(thickness > 0) || !double.IsFinite(thickness)))
        {
            throw Fault($"is {thickness.ToString(CultureInfo.InvariantCulture)} µm thick; a number above 0 is needed, or leave the thickness out", nameof(ThicknessUm));
        }

        if (CountedCoats < 1)
        {
            throw Fault($"has {CountedCoats} coats; a number from 1 up is needed, or leave the coats out", nameof(CountedCoats));
        }
    }

    private ArgumentException Fault(string fault, string field) => new($"Swatch '{Id}' {fault}.", field);
}
