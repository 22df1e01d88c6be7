using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>One colour that a scheme asks a palette for: a mix given by its author, a colour to hit, or a colour to reach by a glaze.</summary>
/// <param name="Key">Whose it is, such as "net casters / cloak / 1".</param>
/// <param name="Aim">The colour to hit under the scheme's view; that of the mix where one is given.</param>
public sealed record Demand(string Key, Lab Aim)
{
    /// <summary>The mix to use, where the author gave one.</summary>
    public Recipe? Given { get; init; }

    /// <summary>What a glaze lies over and how often it may be laid, where the colour is reached by a glaze.</summary>
    public GlazeGoal? Glaze { get; init; }

    /// <summary>A solved mix has no more chroma than this.</summary>
    public double ChromaAtMost { get; init; } = double.PositiveInfinity;

    /// <summary>Most drops in a solved mix.</summary>
    public int Drops { get; init; } = Scheme.ConventionalDrops;
}

/// <summary>A glaze's task.</summary>
/// <param name="Beneath">The colour beneath, under the scheme's view.</param>
/// <param name="MostCoats">How often it may be laid, 1 or more.</param>
/// <param name="Medium">Parts of medium to one of paint; null: to be found.</param>
public sealed record GlazeGoal(Lab Beneath, int MostCoats, double? Medium);
