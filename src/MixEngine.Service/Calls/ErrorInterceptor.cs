using System.Data.Common;
using Google.Protobuf;
using Grpc.Core;
using Grpc.Core.Interceptors;
using MixEngine.Service.Refusals;
using MixEngine.Service.Telemetry;
using MixEngine.Storage;

namespace MixEngine.Service.Calls;

/// <summary>Bounds the time of every call, and turns whatever went wrong in it into the status that its client gets.</summary>
internal sealed class ErrorInterceptor(CallTime time, Database database, ILogger<ErrorInterceptor> logger) : Interceptor
{
    public override Task<TResponse> UnaryServerHandler<TRequest, TResponse>(
        TRequest request, ServerCallContext context, UnaryServerMethod<TRequest, TResponse> continuation) =>
        ToldAsync(context, time.BoundAsync(context, bounded => continuation(request, bounded)));

    public override Task ServerStreamingServerHandler<TRequest, TResponse>(
        TRequest request, IServerStreamWriter<TResponse> responseStream, ServerCallContext context, ServerStreamingServerMethod<TRequest, TResponse> continuation) =>
        ToldAsync(context, time.BoundStreamAsync(context, bounded => continuation(request, responseStream, bounded)));

    public override Task DuplexStreamingServerHandler<TRequest, TResponse>(
        IAsyncStreamReader<TRequest> requestStream, IServerStreamWriter<TResponse> responseStream, ServerCallContext context, DuplexStreamingServerMethod<TRequest, TResponse> continuation) =>
        ToldAsync(context, time.BoundStreamAsync(context, bounded => continuation(requestStream, responseStream, bounded)));

    /// <summary>The code that tells a client whether to try again by itself.</summary>
    public static StatusCode CodeOf(DatabaseTrouble trouble) => trouble.Passes ? StatusCode.Unavailable : StatusCode.ResourceExhausted;

    private async Task<TResponse> ToldAsync<TResponse>(ServerCallContext context, Task<TResponse> answer)
    {
        await ToldAsync(context, (Task)answer);
        return await answer;
    }

    private async Task ToldAsync(ServerCallContext context, Task answer)
    {
        try
        {
            await answer;
            CallRecord.Ended(context.GetHttpContext(), StatusCode.OK);
        }
        catch (Exception fault)
        {
            var told = Told(context, fault);
            CallRecord.Ended(context.GetHttpContext(), told.StatusCode);
            throw told;
        }
    }

    private RpcException Told(ServerCallContext context, Exception fault)
    {
        switch (fault)
        {
            case Refusal refusal:
                return refusal.ToStatus().ToRpcException();
            case RpcException status:
                return status;
            case OperationCanceledException or IOException when context.CancellationToken.IsCancellationRequested:
                // Nobody waits any more, but an intermediary may want to know.
                return new RpcException(new Status(StatusCode.Cancelled, "The caller gave up waiting."));
            case DbException broken when database.TroubleOf(broken) is { } trouble:
                Log.DatabaseTrouble(logger, fault, context.Method);
                return new RpcException(new Status(CodeOf(trouble), trouble.Words));
            case InvalidProtocolBufferException:
                // A later message of a stream; the first one of other calls never comes this far.
                return new RpcException(new Status(StatusCode.InvalidArgument, UnreadableMessage.Words));
            default:
                // The caller learns nothing of our insides, and whoever runs the service finds the place.
                var reference = Guid.NewGuid().ToString("N")[..12];
                Log.Unexpected(logger, fault, context.Method, reference);
                return new RpcException(new Status(
                    StatusCode.Internal, $"The service failed; the request need not be at fault. Its log tells more under the reference {reference}."));
        }
    }
}
