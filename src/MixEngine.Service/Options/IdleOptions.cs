namespace MixEngine.Service.Options;

/// <summary>When a service that nobody asks anything ends by itself.</summary>
public sealed class IdleOptions
{
    /// <summary>The longest that can be asked for: a week.</summary>
    public const double MostMinutes = 7 * 24 * 60;

    /// <summary>Minutes without a request under way or arriving, 0 to 10080; fractions count. 0, the default: it never ends by itself.</summary>
    public double Minutes { get; init; }

    /// <summary>What is wrong with these options, in plain words.</summary>
    public IEnumerable<OptionFault> Faults()
    {
        if (!(Minutes >= 0 && Minutes <= MostMinutes))
        {
            yield return new OptionFault("idle-minutes", FormattableString.Invariant($"{Minutes} is not from 0 (never) to {MostMinutes}."));
        }
    }
}
