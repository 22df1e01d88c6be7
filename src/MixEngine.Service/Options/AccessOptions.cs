namespace MixEngine.Service.Options;

/// <summary>Who is answered, and how often.</summary>
public sealed class AccessOptions
{
    /// <summary>Whether callers on this machine's own ports need an access key too. Where other machines can reach the service, everybody does in any case.</summary>
    public bool RequireKey { get; init; }

    /// <summary>How often a second each key may ask, twice that at once. 0: as often as it likes. 50 by default.</summary>
    public double CallsPerSecond { get; init; } = 50;

    /// <summary>What is wrong with these options, in plain words.</summary>
    public IEnumerable<OptionFault> Faults()
    {
        if (CallsPerSecond is not (0 or (>= 0.01 and <= 100_000)))
        {
            yield return new OptionFault("calls-per-second", FormattableString.Invariant($"{CallsPerSecond} is not 0 or between 0.01 and 100000."));
        }
    }
}
