namespace MixEngine.Service.Options;

/// <summary>How the service ends when it is asked to.</summary>
public sealed class DrainOptions
{
    private const double MostSeconds = 3600;

    /// <summary>For how long what is under way may go on; what is not answered then is handed back to its caller. 0 to 3600, 10 by default.</summary>
    public double Seconds { get; init; } = 10;

    /// <summary>
    /// For how long health checks hear of it before callers are turned away: a balancer that asks every few seconds then sends nobody any more. 0 to 3600, 0 by default.
    /// </summary>
    public double NoticeSeconds { get; init; }

    /// <summary>What is wrong with these options, in plain words.</summary>
    public IEnumerable<OptionFault> Faults()
    {
        foreach (var (setting, seconds) in new[] { ("drain-seconds", Seconds), ("drain-notice-seconds", NoticeSeconds) })
        {
            if (!(seconds >= 0 && seconds <= MostSeconds))
            {
                yield return new OptionFault(setting, FormattableString.Invariant($"{seconds} is not from 0 to {MostSeconds} seconds."));
            }
        }
    }
}
