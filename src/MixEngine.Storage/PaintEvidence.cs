using MixEngine.Core;

namespace MixEngine.Storage;

/// <summary>What its owner entered about one bottle, word for word. Optics are derived from it and never stored.</summary>
public sealed record PaintEvidence
{
    /// <summary>The name its owner knows it by. Not empty.</summary>
    public required string Name { get; init; }

    /// <summary>The maker's series, in the owner's words.</summary>
    public string? Range { get; init; }

    /// <summary>Paint, medium or water.</summary>
    public PaintKind Kind { get; init; }

    /// <summary>The maker's word for how it hides, where given.</summary>
    public OpacityWord? Opacity { get; init; }

    /// <summary>The finish to which it dries, where stated.</summary>
    public Finish? Finish { get; init; }

    /// <summary>The dried paint alone in a hiding layer; null for medium and water.</summary>
    public StoredColor? Color { get; init; }

    /// <summary>Drops from its bottle to the millilitre, where counted.</summary>
    public double? DropsPerMl { get; init; }

    /// <summary>What is left in the bottle, ml, where known.</summary>
    public double? MlLeft { get; init; }

    /// <summary>Colour Index names of its pigments, in the order given.</summary>
    public IReadOnlyList<string> Pigments { get; init; } = [];

    /// <summary>The owner's notes.</summary>
    public string? Notes { get; init; }

    /// <summary>Whether both say the same of the same bottle, pigments one by one.</summary>
    public bool Equals(PaintEvidence? other) =>
        other is not null
        && (Name, Range, Kind, Opacity, Finish, Color) == (other.Name, other.Range, other.Kind, other.Opacity, other.Finish, other.Color)
        && (DropsPerMl, MlLeft, Notes) == (other.DropsPerMl, other.MlLeft, other.Notes)
        && Pigments.SequenceEqual(other.Pigments);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Name, Range, Kind, Opacity, Finish, Color);
}
