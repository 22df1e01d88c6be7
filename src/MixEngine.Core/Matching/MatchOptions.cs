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

    /// <summary>Throws where a value is out of range.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Names the option, the value and the range.</exception>
    internal void Check()
    {
        Within(Paints, 1, MostPaints, nameof(Paints));
        Within(Drops, 1, MostDrops, nameof(Drops));
        Within(Answers, 1, 100, nameof(Answers));
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
