namespace MixEngine.Service.Options;

/// <summary>When a client that says nothing any more, or takes nothing, counts as dead: a machine that lost its power says no farewell.</summary>
public sealed class SilenceOptions
{
    private const double Fewest = 4, Most = 3600;

    /// <summary>For how long a client may be silent and leave a ping unanswered, before its connection is let go; 4 to 3600, 80 by default. A batch of its can be opened again then, by whoever goes on with it.</summary>
    public double Seconds { get; init; } = 80;

    /// <summary>After so long it is pinged: the rest is for its answer.</summary>
    public TimeSpan PingAfter => TimeSpan.FromSeconds(Seconds * 0.75);

    /// <summary>For how long a ping may stay unanswered.</summary>
    public TimeSpan AnswerWithin => TimeSpan.FromSeconds(Seconds * 0.25);

    /// <summary>For how long a connection over TCP may take nothing at all of what is sent to it: a client over HTTP/1.1 cannot be pinged, and may be busy.</summary>
    public TimeSpan TakeWithin => TimeSpan.FromSeconds(Seconds * 4);

    /// <summary>What is wrong with these options, in plain words.</summary>
    public IEnumerable<OptionFault> Faults()
    {
        if (!(Seconds >= Fewest && Seconds <= Most))
        {
            yield return new OptionFault("silence-seconds", FormattableString.Invariant($"{Seconds} is not from {Fewest} to {Most} seconds."));
        }
    }
}
