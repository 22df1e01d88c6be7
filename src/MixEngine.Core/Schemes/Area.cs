namespace MixEngine.Core;

/// <summary>A part of a figure that is painted in one way: a cloak, skin, metal.</summary>
public sealed record Area
{
    /// <summary>Coats of a base or a single colour where nothing is stated: two thin coats (common practice, no source).</summary>
    public const int ConventionalBaseCoats = 2;

    /// <summary>Lightness between the ends of layers that are made from one colour, CIELAB L* (common practice, no source).</summary>
    public const double ConventionalSpread = 34;

    /// <summary>Its name, unique on its figure.</summary>
    public required string Name { get; init; }

    /// <summary>What is done on it.</summary>
    public AreaRole Role { get; init; }

    /// <summary>What it is to look like.</summary>
    public required AreaAim Aim { get; init; }

    /// <summary>Steps of its layers, 2 to 64; 1 for any other role.</summary>
    public int Steps { get; init; } = 1;

    /// <summary>Most drops in one of its mixes, 1 to 80; null: as the scheme says.</summary>
    public int? Drops { get; init; }

    /// <summary>Lightness between the ends of layers that are made from one colour, 0 to 100.</summary>
    public double Spread { get; init; } = ConventionalSpread;

    /// <summary>Coats of its base, single colour or glaze, 1 to 100; layers above a base are one coat each.</summary>
    public int Coats { get; init; } = ConventionalBaseCoats;

    /// <summary>Parts of medium to one part of paint in a glaze; null: to be found, for a colour to reach.</summary>
    public double? Medium { get; init; }

    /// <summary>The area of the same figure that a glaze lies over.</summary>
    public string? Over { get; init; }

    /// <summary>Its share of the figure's surface, 0 to 1; null: an equal share of what the others leave.</summary>
    public double? Share { get; init; }

    /// <summary>Where it is on the figure, or where each of its steps goes, in the author's words; empty: the usual words.</summary>
    public IReadOnlyList<string> Where { get; init; } = [];

    /// <summary>Its own ceiling of chroma, which goes before the scheme's; null: the scheme's.</summary>
    public double? ChromaAtMost { get; init; }

    /// <summary>Where its keys stand.</summary>
    public SourceLines Lines { get; init; } = SourceLines.None;
}
