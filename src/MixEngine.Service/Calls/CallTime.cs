using Grpc.Core;
using MixEngine.Service.Hosting;
using MixEngine.Service.Options;

namespace MixEngine.Service.Calls;

/// <summary>
/// Bounds the time of every call: one whose client gave no deadline gets one, so that no computation outlives every patience; and when the service ends, what is
/// still under way after its time is handed back.
/// </summary>
internal sealed class CallTime(DeadlineOptions options, Drain drain, TimeProvider clock)
{
    /// <summary>Answers a call that has one answer.</summary>
    public Task<T> BoundAsync<T>(ServerCallContext context, Func<ServerCallContext, Task<T>> answer) =>
        BoundAsync(context, context.Deadline == DateTime.MaxValue ? options.WhereNoneIsGiven : null, answer);

    /// <summary>Answers a call that may go on for as long as its client likes.</summary>
    public Task BoundStreamAsync(ServerCallContext context, Func<ServerCallContext, Task> answer) =>
        BoundAsync(context, null, async bounded =>
        {
            await answer(bounded);
            return true;
        });

    private async Task<T> BoundAsync<T>(ServerCallContext context, TimeSpan? limit, Func<ServerCallContext, Task<T>> answer)
    {
        using var bounded = new DeadlineCallContext(context, limit, drain.Over, clock);
        try
        {
            return await answer(bounded);
        }
        catch (OperationCanceledException) when (bounded.HasRunOut)
        {
            throw new RpcException(new Status(
                StatusCode.DeadlineExceeded,
                FormattableString.Invariant($"No answer within {options.WhereNoneIsGiven.TotalSeconds} seconds, the limit where a caller sets no deadline. Ask for less, or set a later deadline.")));
        }
        catch (OperationCanceledException) when (drain.Over.IsCancellationRequested && !context.CancellationToken.IsCancellationRequested)
        {
            throw new RpcException(new Status(StatusCode.Unavailable, "The service is ending and hands this call back unanswered. Ask again, here or elsewhere."));
        }
    }
}
