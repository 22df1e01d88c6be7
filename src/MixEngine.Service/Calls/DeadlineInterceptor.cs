using Grpc.Core;
using Grpc.Core.Interceptors;
using MixEngine.Service.Options;

namespace MixEngine.Service.Calls;

/// <summary>Gives a deadline to each call whose client gave none, so that no computation outlives every patience.</summary>
internal sealed class DeadlineInterceptor(DeadlineOptions options, TimeProvider clock) : Interceptor
{
    public override async Task<TResponse> UnaryServerHandler<TRequest, TResponse>(
        TRequest request, ServerCallContext context, UnaryServerMethod<TRequest, TResponse> continuation)
    {
        if (context.Deadline != DateTime.MaxValue)
        {
            return await continuation(request, context);
        }

        using var deadline = new CancellationTokenSource(options.WhereNoneIsGiven, clock);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(deadline.Token, context.CancellationToken);
        try
        {
            return await continuation(request, new DeadlineCallContext(context, clock.GetUtcNow().UtcDateTime + options.WhereNoneIsGiven, either.Token));
        }
        catch (OperationCanceledException) when (deadline.IsCancellationRequested)
        {
            throw new RpcException(new Status(
                StatusCode.DeadlineExceeded,
                FormattableString.Invariant($"No answer within {options.WhereNoneIsGiven.TotalSeconds} seconds, the limit where a caller sets no deadline. Ask for less, or set a later deadline.")));
        }
    }
}
