namespace MixEngine.Service.Options;

/// <summary>How long a call may take whose client does not say.</summary>
public sealed class DeadlineOptions
{
    private static readonly TimeSpan Most = TimeSpan.FromHours(1);

    /// <summary>60 s by default; above 0, at most an hour. A client that gives its own deadline gets that.</summary>
    public TimeSpan WhereNoneIsGiven { get; init; } = TimeSpan.FromSeconds(60);

    /// <summary>What is wrong with these options, in plain words.</summary>
    public IEnumerable<OptionFault> Faults()
    {
        if (WhereNoneIsGiven <= TimeSpan.Zero || WhereNoneIsGiven > Most)
        {
            yield return new OptionFault("deadline-seconds", FormattableString.Invariant($"{WhereNoneIsGiven.TotalSeconds} is not above 0 and at most {Most.TotalSeconds} seconds."));
        }
    }
}
