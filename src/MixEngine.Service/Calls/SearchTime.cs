using Grpc.Core;

namespace MixEngine.Service.Calls;

/// <summary>
/// The time that a search may take: what is left until the call's deadline but for a fifth, at most two seconds, in which the best
/// found so far still reaches its caller, said to be unproven. It ends at once when the caller gives up.
/// </summary>
internal static class SearchTime
{
    private const double Reserved = 0.2;

    private static readonly TimeSpan MostReserved = TimeSpan.FromSeconds(2);

    /// <summary>Cancelled when the search should stop; dispose it after.</summary>
    public static CancellationTokenSource Of(ServerCallContext context)
    {
        var source = CancellationTokenSource.CreateLinkedTokenSource(context.CancellationToken);
        var left = context.Deadline - DateTime.UtcNow;
        if (left < TimeSpan.FromDays(1))
        {
            var reserved = left * Reserved < MostReserved ? left * Reserved : MostReserved;
            source.CancelAfter(left > TimeSpan.Zero ? left - reserved : TimeSpan.Zero);
        }

        return source;
    }
}
