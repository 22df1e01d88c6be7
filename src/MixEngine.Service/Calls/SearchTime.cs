using Grpc.Core;

namespace MixEngine.Service.Calls;

/// <summary>
/// The time that a search may take: most of what is left until the call's deadline, so that the best found so far still reaches its
/// caller, said to be unproven. It ends at once when the caller gives up.
/// </summary>
internal static class SearchTime
{
    private const double Share = 0.8;

    /// <summary>Cancelled when the search should stop; dispose it after.</summary>
    public static CancellationTokenSource Of(ServerCallContext context)
    {
        var source = CancellationTokenSource.CreateLinkedTokenSource(context.CancellationToken);
        var left = context.Deadline - DateTime.UtcNow;
        if (left < TimeSpan.FromDays(1))
        {
            source.CancelAfter(left > TimeSpan.Zero ? left * Share : TimeSpan.Zero);
        }

        return source;
    }
}
