using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>What a whole force is to look like: decided once, held for every figure. Paints are named as its author wrote them; a shelf gives them meaning.</summary>
public sealed record Scheme
{
    /// <summary>The difference that is good enough where none is stated, CIEDE2000: what an eye sees side by side, but not across a table (common practice).</summary>
    public const double ConventionalTolerance = 2;

    /// <summary>Most drops in one mix where nothing is stated.</summary>
    public const int ConventionalDrops = 6;

    /// <summary>What is mixed beyond the need where nothing is stated: a fifth, for touching up.</summary>
    public const double ConventionalSurplus = 0.2;

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>The shelves to paint from; empty: whichever the asker names.</summary>
    public IReadOnlyList<string> Shelves { get; init; } = [];

    /// <summary>A shelf of paints that could be bought; null: nothing is to be bought.</summary>
    public string? BuyFrom { get; init; }

    /// <summary>Names of the paints that stand on the table already: preferred where nothing is lost by it.</summary>
    public IReadOnlyList<string> OnTable { get; init; } = [];

    /// <summary>Light and eye under which the figures are judged.</summary>
    public ViewingCondition Condition { get; init; } = ViewingCondition.Default;

    /// <summary>"black", "grey" or "white"; null: none.</summary>
    public string? Primer { get; init; }

    /// <summary>The varnish that goes over everything, and the finish in which colours are judged; null: none, colours as the paints dry.</summary>
    public Varnish? Varnish { get; init; }

    /// <summary>What is sprayed rather than brushed.</summary>
    public IReadOnlyList<SprayedCoat> Sprayed { get; init; } = [];

    /// <summary>Whether anything painted is sanded down between coats.</summary>
    public bool Sanded { get; init; }

    /// <summary>Difference from each target that is good enough, CIEDE2000, above 0.</summary>
    public double Tolerance { get; init; } = ConventionalTolerance;

    /// <summary>Most paints in one mix, 1 to 3.</summary>
    public int PaintsPerMix { get; init; } = 3;

    /// <summary>Most drops in one mix, 1 to 80.</summary>
    public int Drops { get; init; } = ConventionalDrops;

    /// <summary>Share that is mixed beyond the need, 0 to 2.</summary>
    public double Surplus { get; init; } = ConventionalSurplus;

    /// <summary>The mood: no target and no solved mix has more chroma (CIELAB C*) than this; null: no ceiling.</summary>
    public double? ChromaAtMost { get; init; }

    /// <summary>The figures, in the order of the file.</summary>
    public required IReadOnlyList<Figure> Figures { get; init; }

    /// <summary>Where its keys stand.</summary>
    public SourceLines Lines { get; init; } = SourceLines.None;

    /// <summary>How its colours are looked at: in its light, and as its varnish leaves them.</summary>
    public View View => new(Condition, Varnish?.Finish);

    /// <summary>All areas of all figures, in the order of the file.</summary>
    public IEnumerable<(Figure Figure, Area Area)> Areas => Figures.SelectMany(figure => figure.Areas.Select(area => (figure, area)));
}
