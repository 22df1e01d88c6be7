namespace MixEngine.Interchange;

/// <summary>One dried colour of something known.</summary>
/// <param name="Line">The line (worksheet row) it was read from; zero when it comes from no file.</param>
/// <param name="SampleId">Unique in its table; 1 to 200 characters, one line.</param>
/// <param name="Of">What was painted, as text: a paint or a recipe such as "2 tarred rope + 1 kelp"; 1 to 1,000 characters, one line.</param>
/// <param name="Color">Its colour or spectrum.</param>
public sealed record SwatchRow(int Line, string SampleId, string Of, ColorReading Color)
{
    /// <summary>The name that swatches of one film over several backings share; at most 200 characters, one line. Empty: a film of its own.</summary>
    public string Film { get; init; } = "";

    /// <summary>How many coats, 1 to 100. Null: not stated.</summary>
    public int? Coats { get; init; }

    /// <summary>Thickness of the dry film, micrometres, 0.001 to 10,000. Null: not stated.</summary>
    public double? ThicknessUm { get; init; }

    /// <summary>What lay beneath. Null: not stated.</summary>
    public SwatchBacking? Backing { get; init; }

    /// <summary>How the parts were measured out. Null: not stated.</summary>
    public StatedDosing? Dosing { get; init; }

    /// <summary>Sheen of the dried surface. Null: not stated.</summary>
    public StatedFinish? Finish { get; init; }

    /// <summary>Whether the mirror reflection was collected.</summary>
    public SpecularMode Specular { get; init; }

    /// <summary>Where the colour comes from. Null: not stated.</summary>
    public SwatchSource? Source { get; init; }

    /// <summary>When it was measured. Null: not stated.</summary>
    public DateOnly? Date { get; init; }

    /// <summary>Free text, at most 4,000 characters; may have several lines.</summary>
    public string Note { get; init; } = "";

    /// <summary>Equal in all that is stated, wherever it was read.</summary>
    public bool Equals(SwatchRow? other) =>
        other is not null && SampleId == other.SampleId && Of == other.Of && Color == other.Color && Film == other.Film && Dosing == other.Dosing && Coats == other.Coats && ThicknessUm == other.ThicknessUm
        && Backing == other.Backing && Finish == other.Finish && Specular == other.Specular && Source == other.Source && Date == other.Date && Note == other.Note;

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(SampleId, Of, Color);
}
