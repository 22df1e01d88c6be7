using Grpc.Core;

namespace MixEngine.Service.Calls;

/// <summary>
/// The time that a search may take: what is left until the call's deadline but for a fifth, at most two seconds, in which the best
/// found so far still reaches its caller, said to be unproven. It ends at once when the caller gives up. Setting the computer's clock makes no difference to it.
/// </summary>
internal static class SearchTime
{
    private const double Reserved = 0.2;

    private static readonly TimeSpan MostReserved = TimeSpan.FromSeconds(2);

    /// <summary>Cancelled when the search should stop; dispose it after.</summary>
    public static CancellationTokenSource Of(ServerCallContext context)
    {
        var source = CancellationTokenSource.CreateLinkedTokenSource(context.CancellationToken);
        if (context is DeadlineCallContext { TimeLeft: { } left } && left < TimeSpan.FromDays(1))
        {
            var reserved = left * Reserved < MostReserved ? left * Reserved : MostReserved;
            if (left > TimeSpan.Zero)
            {
                source.CancelAfter(left - reserved);
            }
            else
            {
                source.Cancel();
            }
        }

        return source;
    }
}
