using Grpc.Core;

namespace MixEngine.Service.Calls;

/// <summary>A call as it came, but for its deadline and the token that tells of it.</summary>
internal sealed class DeadlineCallContext(ServerCallContext call, DateTime deadline, CancellationToken cancellationToken) : ServerCallContext
{
    protected override string MethodCore => call.Method;

    protected override string HostCore => call.Host;

    protected override string PeerCore => call.Peer;

    protected override DateTime DeadlineCore => deadline;

    protected override Metadata RequestHeadersCore => call.RequestHeaders;

    protected override CancellationToken CancellationTokenCore => cancellationToken;

    protected override Metadata ResponseTrailersCore => call.ResponseTrailers;

    protected override Status StatusCore
    {
        get => call.Status;
        set => call.Status = value;
    }

    protected override WriteOptions? WriteOptionsCore
    {
        get => call.WriteOptions;
        set => call.WriteOptions = value;
    }

    protected override AuthContext AuthContextCore => call.AuthContext;

    protected override IDictionary<object, object> UserStateCore => call.UserState;

    protected override ContextPropagationToken CreatePropagationTokenCore(ContextPropagationOptions? options) => call.CreatePropagationToken(options);

    protected override Task WriteResponseHeadersAsyncCore(Metadata responseHeaders) => call.WriteResponseHeadersAsync(responseHeaders);
}
