namespace MixEngine.Core;

/// <summary>What a ramp should be like.</summary>
public sealed record RampOptions
{
    /// <summary>The most steps of a ramp.</summary>
    public const int MostSteps = 64;

    /// <summary>The most drops in one step: nobody counts past about 80 in a bottle (common practice, no source).</summary>
    public const int MostDrops = 80;

    /// <summary>The smallest and the largest ratio that <see cref="TopStep"/> may be.</summary>
    public const double LeastTopStep = 0.1, MostTopStep = 10;

    /// <summary>Steps, both ends counted, 2 to 64.</summary>
    public int Steps
    {
        get;
        init => field = value is >= 2 and <= MostSteps ? value : throw new ArgumentOutOfRangeException(nameof(Steps), value, $"A ramp has 2 to {MostSteps} steps, both ends counted.");
    } = 6;

    /// <summary>Find the number of steps: the fewest of which none is larger than <see cref="LargestStep"/>. <see cref="Steps"/> does not count then.</summary>
    public bool FewestSteps { get; init; }

    /// <summary>Most drops in one step, 1 to 80.</summary>
    public int Drops
    {
        get;
        init => field = value is >= 1 and <= MostDrops ? value : throw new ArgumentOutOfRangeException(nameof(Drops), value, $"A step has 1 to {MostDrops} drops.");
    } = 6;

    /// <summary>In what the steps are to be even, and in which the sizes below are stated.</summary>
    public StepDifference Difference { get; init; }

    /// <summary>Size of the last step, at the light end, relative to the first, 0.1 to 10: below 1 the steps shrink towards the light, as highlights cover less. 1: all alike.</summary>
    public double TopStep
    {
        get;
        init => field = value is >= LeastTopStep and <= MostTopStep ? value : throw new ArgumentOutOfRangeException(nameof(TopStep), value, $"The last step is {LeastTopStep} to {MostTopStep} times the first.");
    } = 1;

    /// <summary>No step is to be smaller than this: an eye must see it. Null: no limit.</summary>
    public double? SmallestStep
    {
        get;
        init => field = value is null or (> 0 and <= 100) ? value : throw new ArgumentOutOfRangeException(nameof(SmallestStep), value, "The smallest step is above 0 and at most 100.");
    }

    /// <summary>No step is to be larger than this: it would band. Null: no limit.</summary>
    public double? LargestStep
    {
        get;
        init => field = value is null or (> 0 and <= 100) ? value : throw new ArgumentOutOfRangeException(nameof(LargestStep), value, "The largest step is above 0 and at most 100.");
    }

    /// <summary>Which recipes on the way must be steps of the ramp, by their place in the path, the first being 0.</summary>
    public IReadOnlyCollection<int> Kept { get; init; } = [];

    /// <summary>Whether the ends of the ramp are exactly the ends of the path. Otherwise it may begin and end up to half a step inside.</summary>
    public bool KeepEnds { get; init; } = true;

    /// <summary>Whether the ends are painted already: then they need not be countable in <see cref="Drops"/>.</summary>
    public bool EndsArePainted { get; init; }

    /// <summary>Relative sizes of so many steps, from the dark end: in geometric progression from 1 to <see cref="TopStep"/>.</summary>
    internal double[] Weights(int steps) =>
        [.. Enumerable.Range(0, steps).Select(i => steps == 1 ? 1 : Math.Pow(TopStep, (double)i / (steps - 1)))];

    /// <summary>Whether a step of this size is within the limits.</summary>
    internal bool Allows(double step) => !(step < SmallestStep) && !(step > LargestStep);

    /// <summary>Throws where two options contradict each other.</summary>
    internal void Check(int through)
    {
        if (FewestSteps && LargestStep is null)
        {
            throw new ArgumentException("To find the number of steps, state how large a step may be.", nameof(LargestStep));
        }

        if (SmallestStep > LargestStep)
        {
            throw new ArgumentException(FormattableString.Invariant($"The smallest step, {SmallestStep}, is larger than the largest, {LargestStep}."), nameof(SmallestStep));
        }

        if (Kept.Any(kept => kept < 0 || kept >= through))
        {
            throw new ArgumentException($"Recipe {Kept.First(kept => kept < 0 || kept >= through)} of the path is to be kept, but they are numbered 0 to {through - 1}.", nameof(Kept));
        }

        if (!FewestSteps && Kept.Append(0).Append(through - 1).Distinct().Count() is var least && least > Steps)
        {
            throw new ArgumentException($"{least} recipes are to be kept, but only {Steps} steps are asked for.", nameof(Kept));
        }
    }
}
