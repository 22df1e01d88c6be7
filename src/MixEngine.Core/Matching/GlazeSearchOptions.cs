namespace MixEngine.Core;

/// <summary>How a glaze towards a colour is to be looked for.</summary>
public sealed record GlazeSearchOptions
{
    /// <summary>Parts of medium to one part of paint that are tried: none, and one to ten (common practice, no source; see <see cref="LetDownLimits"/>).</summary>
    public IReadOnlyList<double> MediumParts { get; init; } = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, LetDownLimits.MostMedium];

    /// <summary>Parts of water to one part of paint, in every let-down, 0 or more.</summary>
    public double WaterParts
    {
        get;
        init => field = value is >= 0 and <= 100 ? value : throw new ArgumentOutOfRangeException(nameof(WaterParts), value, "Between 0 and 100 parts of water go to one part of paint.");
    }

    /// <summary>Most coats, 1 to 100.</summary>
    public int MostCoats
    {
        get;
        init => field = value is >= 1 and <= Coats.Most ? value : throw new ArgumentOutOfRangeException(nameof(MostCoats), value, $"Between 1 and {Coats.Most} coats can be asked for.");
    } = 10;

    /// <summary>Dry thickness of one coat of undiluted paint, µm, 1 to 200.</summary>
    public double CoatUm { get; init; } = Film.ConventionalCoatUm;

    /// <summary>Within so much a colour is reached, CIEDE2000: a brushed coat is no finer than what a trained eye just sees (common practice).</summary>
    public double Tolerance
    {
        get;
        init => field = value is >= 0 and <= 100 ? value : throw new ArgumentOutOfRangeException(nameof(Tolerance), value, "The tolerance is a CIEDE2000 difference from 0 to 100.");
    } = 1;

    /// <summary>How many glazes to answer at most, each of another paint.</summary>
    public int Answers { get; init; } = 3;
}
