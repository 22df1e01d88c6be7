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
    public override Task<TResponse> UnaryServerHandler<TRequest, TResponse>(
        TRequest request, ServerCallContext context, UnaryServerMethod<TRequest, TResponse> continuation) =>
        UntilOverAsync(context, context.Deadline == DateTime.MaxValue ? options.WhereNoneIsGiven : null, bounded => continuation(request, bounded));

    public override Task ServerStreamingServerHandler<TRequest, TResponse>(
        TRequest request, IServerStreamWriter<TResponse> responseStream, ServerCallContext context, ServerStreamingServerMethod<TRequest, TResponse> continuation) =>
        UntilOverAsync(context, null, async bounded =>
        {
            await continuation(request, responseStream, bounded);
            return true;
        });

    public override Task DuplexStreamingServerHandler<TRequest, TResponse>(
        IAsyncStreamReader<TRequest> requestStream, IServerStreamWriter<TResponse> responseStream, ServerCallContext context, DuplexStreamingServerMethod<TRequest, TResponse> continuation) =>
        UntilOverAsync(context, null, async bounded =>
        {
            await continuation(requestStream, responseStream, bounded);
            return true;
        });

    private async Task<T> UntilOverAsync<T>(ServerCallContext context, TimeSpan? limit, Func<ServerCallContext, Task<T>> answer)
    {
        using var deadline = new CallDeadline(context, limit, drain.Over, clock);
        try
        {
            return await answer(new DeadlineCallContext(context, deadline));
        }
        catch (OperationCanceledException) when (deadline.HasRunOut)
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
