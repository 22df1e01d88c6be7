using Grpc.Core;

namespace MixEngine.Service.Tests.Kills;

/// <summary>One kind of record that is written again and again until the service is killed, each under a number of its own.</summary>
internal abstract class Writing(string kind, int round)
{
    private readonly List<int> _asked = [], _acknowledged = [];

    /// <summary>What is written.</summary>
    public string Kind => kind;

    /// <summary>The numbers that were asked to be written.</summary>
    public IReadOnlyList<int> Asked => _asked;

    /// <summary>Those of them that the service said were.</summary>
    public IReadOnlyList<int> Acknowledged => _acknowledged;

    /// <summary>Names of this round's records begin with it.</summary>
    protected string Round { get; } = FormattableString.Invariant($"r{round}");

    /// <summary>What must be there before.</summary>
    public virtual Task PrepareAsync(ChannelBase channel) => Task.CompletedTask;

    /// <summary>Writes one record; returns when the service has acknowledged it.</summary>
    public abstract Task WriteAsync(ChannelBase channel, int number);

    /// <summary>What is there: each number that is found, once for each time, and whether its record is whole.</summary>
    public abstract Task<IReadOnlyList<(int Number, bool Whole)>> FindAsync(ChannelBase channel);

    /// <summary>Whether one that was not acknowledged may be sent again and is then there once.</summary>
    public virtual bool MayBeRepeated => true;

    /// <summary>Writes until the service is gone.</summary>
    public async Task WriteUntilGoneAsync(ChannelBase channel)
    {
        for (var number = 0; ; number++)
        {
            _asked.Add(number);
            try
            {
                await WriteAsync(channel, number);
            }
            catch (Exception fault) when (fault is RpcException or InvalidOperationException)
            {
                return;
            }

            _acknowledged.Add(number);
        }
    }
}
