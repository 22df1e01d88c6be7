namespace MixEngine.Core;

/// <summary>What a ramp should be like.</summary>
public sealed record RampOptions
{
    /// <summary>The most steps of a ramp.</summary>
    public const int MostSteps = 64;

    /// <summary>The most drops in one step: nobody counts past about 80 in a bottle (common practice, no source).</summary>
    public const int MostDrops = 80;

    /// <summary>Steps, both ends counted, 2 to 64.</summary>
    public int Steps
    {
        get;
        init => field = value is >= 2 and <= MostSteps ? value : throw new ArgumentOutOfRangeException(nameof(Steps), value, $"A ramp has 2 to {MostSteps} steps, both ends counted.");
    } = 6;

    /// <summary>Most drops in one step, 1 to 80.</summary>
    public int Drops
    {
        get;
        init => field = value is >= 1 and <= MostDrops ? value : throw new ArgumentOutOfRangeException(nameof(Drops), value, $"A step has 1 to {MostDrops} drops.");
    } = 6;

    /// <summary>In what the steps are to be even.</summary>
    public StepDifference Difference { get; init; }
}
