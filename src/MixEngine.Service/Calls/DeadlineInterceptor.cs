using Grpc.Core;
using Grpc.Core.Interceptors;
using MixEngine.Service.Hosting;
using MixEngine.Service.Options;

namespace MixEngine.Service.Calls;

/// <summary>
/// Bounds the time of every call: one whose client gave no deadline gets one, so that no computation outlives every patience; and when the service ends, what is
/// still under way after its time is handed back.
/// </summary>
internal sealed class DeadlineInterceptor(DeadlineOptions options, Drain drain, TimeProvider clock) : Interceptor
{
    public override async Task<TResponse> UnaryServerHandler<TRequest, TResponse>(
        TRequest request, ServerCallContext context, UnaryServerMethod<TRequest, TResponse> continuation)
    {
        if (context.Deadline != DateTime.MaxValue)
        {
            return await UntilOverAsync(context, context.Deadline, context.CancellationToken, bounded => continuation(request, bounded));
        }

        using var deadline = new CancellationTokenSource(options.WhereNoneIsGiven, clock);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(deadline.Token, context.CancellationToken);
        try
        {
            return await UntilOverAsync(context, clock.GetUtcNow().UtcDateTime + options.WhereNoneIsGiven, either.Token, bounded => continuation(request, bounded));
        }
        catch (OperationCanceledException) when (deadline.IsCancellationRequested)
        {
            throw new RpcException(new Status(
                StatusCode.DeadlineExceeded,
                FormattableString.Invariant($"No answer within {options.WhereNoneIsGiven.TotalSeconds} seconds, the limit where a caller sets no deadline. Ask for less, or set a later deadline.")));
        }
    }

    public override Task ServerStreamingServerHandler<TRequest, TResponse>(
        TRequest request, IServerStreamWriter<TResponse> responseStream, ServerCallContext context, ServerStreamingServerMethod<TRequest, TResponse> continuation) =>
        UntilOverAsync(context, context.Deadline, context.CancellationToken, async bounded =>
        {
            await continuation(request, responseStream, bounded);
            return true;
        });

    public override Task DuplexStreamingServerHandler<TRequest, TResponse>(
        IAsyncStreamReader<TRequest> requestStream, IServerStreamWriter<TResponse> responseStream, ServerCallContext context, DuplexStreamingServerMethod<TRequest, TResponse> continuation) =>
        UntilOverAsync(context, context.Deadline, context.CancellationToken, async bounded =>
        {
            await continuation(requestStream, responseStream, bounded);
            return true;
        });

    private async Task<T> UntilOverAsync<T>(ServerCallContext context, DateTime deadline, CancellationToken patience, Func<ServerCallContext, Task<T>> answer)
    {
        // The framework finds its own context of a call that stands for another there.
        context.UserState["__HttpContext"] = context.GetHttpContext();
        using var either = CancellationTokenSource.CreateLinkedTokenSource(patience, drain.Over);
        try
        {
            return await answer(new DeadlineCallContext(context, deadline, either.Token));
        }
        catch (OperationCanceledException) when (drain.Over.IsCancellationRequested && !patience.IsCancellationRequested)
        {
            throw new RpcException(new Status(StatusCode.Unavailable, "The service is ending and hands this call back unanswered. Ask again, here or elsewhere."));
        }
    }
}
