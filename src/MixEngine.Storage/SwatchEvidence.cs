using MixEngine.Core;

namespace MixEngine.Storage;

/// <summary>What its owner said of one swatch, word for word. What follows from it is derived and never stored.</summary>
public sealed record SwatchEvidence
{
    /// <summary>What was painted. Not empty.</summary>
    public required IReadOnlyList<StoredPart> Parts { get; init; }

    /// <summary>Its dried colour.</summary>
    public required StoredColor Color { get; init; }

    /// <summary>What lies beneath a film that does not hide; <see cref="StoredColor.Text"/> may be "black" or "white", those of a contrast card. Null: the layer hides.</summary>
    public StoredColor? Backing { get; init; }

    /// <summary>The name that swatches of one film over several backings share.</summary>
    public string? Film { get; init; }

    /// <summary>Dry thickness of the film, micrometres, where known.</summary>
    public double? ThicknessUm { get; init; }

    /// <summary>Coats of the film, where counted.</summary>
    public int? Coats { get; init; }

    /// <summary>How the parts were measured out.</summary>
    public Dosing Dosing { get; init; }

    /// <summary>How the colour was read, where stated.</summary>
    public ReadingSource? Source { get; init; }

    /// <summary>Whether the surface reflection was taken in.</summary>
    public SpecularMode Specular { get; init; }

    /// <summary>The finish of the dried film, where stated.</summary>
    public Finish? Finish { get; init; }

    /// <summary>When it was read.</summary>
    public DateOnly? Date { get; init; }

    /// <summary>The owner's note.</summary>
    public string? Note { get; init; }

    /// <summary>Whether both say the same, part by part and to the last digit.</summary>
    public bool Equals(SwatchEvidence? other) =>
        other is not null
        && Parts.SequenceEqual(other.Parts)
        && (Color, Backing, Film, ThicknessUm, Coats) == (other.Color, other.Backing, other.Film, other.ThicknessUm, other.Coats)
        && (Dosing, Source, Specular, Finish, Date, Note) == (other.Dosing, other.Source, other.Specular, other.Finish, other.Date, other.Note);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Parts.Count, Color, Backing, Film, Date, Note);
}
