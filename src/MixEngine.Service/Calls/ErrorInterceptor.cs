using System.Data.Common;
using Google.Protobuf;
using Grpc.Core;
using Grpc.Core.Interceptors;
using MixEngine.Service.Refusals;
using MixEngine.Storage;

namespace MixEngine.Service.Calls;

/// <summary>Bounds the time of every call, and turns whatever went wrong in it into the status that its client gets.</summary>
internal sealed class ErrorInterceptor(CallTime time, Database database, ILogger<ErrorInterceptor> logger) : Interceptor
{
    public override async Task<TResponse> UnaryServerHandler<TRequest, TResponse>(
        TRequest request, ServerCallContext context, UnaryServerMethod<TRequest, TResponse> continuation)
    {
        using var call = time.Bound(context);
        try
        {
            var answer = await continuation(request, call);
            Note(call, StatusCode.OK);
            return answer;
        }
        catch (Exception fault)
        {
            throw Ended(call, fault);
        }
    }

    public override Task ServerStreamingServerHandler<TRequest, TResponse>(
        TRequest request, IServerStreamWriter<TResponse> responseStream, ServerCallContext context, ServerStreamingServerMethod<TRequest, TResponse> continuation) =>
        StreamAsync(context, call => continuation(request, responseStream, call));

    public override Task DuplexStreamingServerHandler<TRequest, TResponse>(
        IAsyncStreamReader<TRequest> requestStream, IServerStreamWriter<TResponse> responseStream, ServerCallContext context, DuplexStreamingServerMethod<TRequest, TResponse> continuation) =>
        StreamAsync(context, call => continuation(requestStream, responseStream, call));

    /// <summary>The code that tells a client whether to try again by itself.</summary>
    public static StatusCode CodeOf(DatabaseTrouble trouble) => trouble.Passes ? StatusCode.Unavailable : StatusCode.ResourceExhausted;

    private async Task StreamAsync(ServerCallContext context, Func<ServerCallContext, Task> answer)
    {
        using var call = time.BoundStream(context);
        try
        {
            await answer(call);
            Note(call, StatusCode.OK);
        }
        catch (Exception fault)
        {
            throw Ended(call, fault);
        }
    }

    private RpcException Ended(DeadlineCallContext call, Exception fault)
    {
        var told = Told(call, fault);
        Note(call, told.StatusCode);
        return told;
    }

    private static void Note(DeadlineCallContext call, StatusCode status)
    {
        if (call.Record is { } record)
        {
            record.Status = status;
        }
    }

    private RpcException Told(DeadlineCallContext call, Exception fault)
    {
        switch (fault)
        {
            case Refusal refusal:
                return refusal.ToStatus().ToRpcException();
            case RpcException status:
                return status;
            case OperationCanceledException when time.Told(call) is { } late:
                return late;
            case OperationCanceledException or IOException when call.IsGivenUp:
                // Nobody waits any more, but an intermediary may want to know.
                return new RpcException(new Status(StatusCode.Cancelled, "The caller gave up waiting."));
            case DbException broken when database.TroubleOf(broken) is { } trouble:
                Log.DatabaseTrouble(logger, fault, call.Method);
                return new RpcException(new Status(CodeOf(trouble), trouble.Words));
            case InvalidProtocolBufferException:
                // A later message of a stream; the first one of other calls never comes this far.
                return new RpcException(new Status(StatusCode.InvalidArgument, UnreadableMessage.Words));
            default:
                // The caller learns nothing of our insides, and whoever runs the service finds the place.
                var reference = Guid.NewGuid().ToString("N")[..12];
                Log.Unexpected(logger, fault, call.Method, reference);
                return new RpcException(new Status(
                    StatusCode.Internal, $"The service failed; the request need not be at fault. Its log tells more under the reference {reference}."));
        }
    }
}
