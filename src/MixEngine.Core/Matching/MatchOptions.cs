namespace MixEngine.Core;

/// <summary>How a match is to be searched.</summary>
public sealed record MatchOptions
{
    /// <summary>Most drops that a recipe may be asked to have: nobody counts further, even into a bottle (common practice).</summary>
    public const int MostDrops = 80;

    /// <summary>Most paints in a recipe.</summary>
    public const int MostPaints = 3;

    /// <summary>The difference that an eye does not see, CIEDE2000.</summary>
    public const double Unseen = 0.5;

    /// <summary>Light, eye and finish under which the match is to hold.</summary>
    public View View { get; init; } = View.Default;

    /// <summary>Most paints in the recipe, 1 to 3.</summary>
    public int Paints { get; init; } = MostPaints;

    /// <summary>Most drops in the recipe, 1 to 80.</summary>
    public int Drops { get; init; } = 6;

    /// <summary>
    /// Differences that count as equal, CIEDE2000, 0 or more: within so much of the best, the simpler recipe wins; and a target within
    /// so much is reached.
    /// </summary>
    public double Tolerance { get; init; } = Unseen;

    /// <summary>How many recipes to answer at most, the best counted, each different in kind from those before; 1 or more.</summary>
    public int Answers { get; init; } = 4;

    /// <summary>Ids of the paints that must be in the recipe; a paint of <see cref="Base"/> is in it anyway.</summary>
    public IReadOnlyList<string> Must { get; init; } = [];

    /// <summary>Ids of the paints that must not be added.</summary>
    public IReadOnlyList<string> MustNot { get; init; } = [];

    /// <summary>What is already on the palette, in drops: paints and drops are then those to be added to it.</summary>
    public Recipe? Base { get; init; }

    /// <summary>Whether medium may be added. It has no colour in a hiding layer, so it is chosen only where it must be in.</summary>
    public bool MediumAllowed { get; init; }

    /// <summary>Several lights under which the match is to hold; empty: the view's alone. The eye is the view's.</summary>
    public IReadOnlyList<LightShare> Lights { get; init; } = [];

    /// <summary>How the differences under several lights become one.</summary>
    public LightRule LightRule { get; init; } = LightRule.Worst;

    /// <summary>Most threads; 0: as many as the machine has. The answer does not depend on it.</summary>
    public int Threads { get; init; }

    /// <summary>Throws where a value is out of range.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Names the option, the value and the range.</exception>
    internal void Check()
    {
        Within(Paints, 1, MostPaints, nameof(Paints));
        Within(Drops, 1, MostDrops, nameof(Drops));
        Within(Answers, 1, 100, nameof(Answers));
        Within(Threads, 0, 1024, nameof(Threads));
        Within(Must.Distinct().Count(), 0, Math.Min(Paints, Drops), $"{nameof(Must)} (paints that must be in)");
        if (Must.FirstOrDefault(MustNot.Contains) is { } both)
        {
            throw new ArgumentException($"The paint '{both}' both must and must not be in the recipe.", nameof(MustNot));
        }

        if (Lights.FirstOrDefault(light => !(light.Weight > 0 && double.IsFinite(light.Weight))) is { } weightless)
        {
            throw new ArgumentOutOfRangeException(nameof(Lights), weightless.Weight, $"The weight of {weightless.Light} must be a number above 0.");
        }

        if (!(Tolerance >= 0 && Tolerance <= 100))
        {
            throw new ArgumentOutOfRangeException(nameof(Tolerance), Tolerance, "The tolerance is a CIEDE2000 difference from 0 to 100.");
        }
    }

    private static void Within(int value, int least, int most, string name)
    {
        if (value < least || value > most)
        {
            throw new ArgumentOutOfRangeException(name, value, $"{name} must be from {least} to {most}.");
        }
    }
}
