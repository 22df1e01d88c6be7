using Grpc.Core;

namespace MixEngine.Service.Calls;

/// <summary>A call as it came, but for its deadline and the token that tells of it, which are made for those who ask for them.</summary>
internal sealed class DeadlineCallContext : ServerCallContext
{
    private readonly ServerCallContext _call;
    private readonly CallDeadline _deadline;

    public DeadlineCallContext(ServerCallContext call, CallDeadline deadline)
    {
        (_call, _deadline) = (call, deadline);

        // The framework looks there for the request of a call that stands for another.
        call.UserState["__HttpContext"] = call.GetHttpContext();
    }

    protected override string MethodCore => _call.Method;

    protected override string HostCore => _call.Host;

    protected override string PeerCore => _call.Peer;

    protected override DateTime DeadlineCore => _deadline.Time;

    protected override Metadata RequestHeadersCore => _call.RequestHeaders;

    protected override CancellationToken CancellationTokenCore => _deadline.Token;

    protected override Metadata ResponseTrailersCore => _call.ResponseTrailers;

    protected override Status StatusCore
    {
        get => _call.Status;
        set => _call.Status = value;
    }

    protected override WriteOptions? WriteOptionsCore
    {
        get => _call.WriteOptions;
        set => _call.WriteOptions = value;
    }

    protected override AuthContext AuthContextCore => _call.AuthContext;

    protected override IDictionary<object, object> UserStateCore => _call.UserState;

    protected override ContextPropagationToken CreatePropagationTokenCore(ContextPropagationOptions? options) => _call.CreatePropagationToken(options);

    protected override Task WriteResponseHeadersAsyncCore(Metadata responseHeaders) => _call.WriteResponseHeadersAsync(responseHeaders);
}
