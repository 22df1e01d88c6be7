using System.Diagnostics;
using Grpc.Core;
using MixEngine.Service.Telemetry;

namespace MixEngine.Service.Calls;

/// <summary>
/// A call as it came, but for when it must end and the token that tells of it. The token is made when it is asked for: most calls are answered before anybody asks.
/// Used by one thread at a time.
/// </summary>
/// <param name="call">As it came.</param>
/// <param name="limit">How long it may take besides; null: until its own deadline.</param>
/// <param name="over">Tells that the service ends.</param>
/// <param name="clock">The time.</param>
internal sealed class DeadlineCallContext(ServerCallContext call, TimeSpan? limit, CancellationToken over, TimeProvider clock) : ServerCallContext, IDisposable
{
    private readonly HttpContext _request = call.GetHttpContext();
    private readonly long _begun = clock.GetTimestamp();
    private CancellationTokenSource? _timer;
    private CancellationTokenSource? _any;
    private CallRecord? _record;

    /// <summary>What is kept of the request in which it came.</summary>
    public CallRecord? Record => _record ??= CallRecord.Of(_request);

    /// <summary>Whether the caller has gone.</summary>
    public bool IsGivenUp => call.CancellationToken.IsCancellationRequested;

    /// <summary>Whether the limit was reached.</summary>
    public bool HasRunOut => _timer is { IsCancellationRequested: true };

    /// <summary>How long it may still take, however the computer's clock is set meanwhile; null: for as long as its client likes.</summary>
    public TimeSpan? TimeLeft
    {
        get
        {
            var (ours, clients) = (limit is { } time ? Left(time) : (TimeSpan?)null, call is DeadlineCallContext outer ? outer.TimeLeft : ClientsTimeLeft());
            return ours < clients || clients is null ? ours : clients;
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _any?.Dispose();
        _timer?.Dispose();
    }

    protected override string MethodCore => call.Method;

    protected override string HostCore => call.Host;

    protected override string PeerCore => call.Peer;

    // The client's deadline, or the limit where that comes first.
    protected override DateTime DeadlineCore => limit is { } time && clock.GetUtcNow().UtcDateTime + Left(time) is var end && end < call.Deadline ? end : call.Deadline;

    protected override Metadata RequestHeadersCore => call.RequestHeaders;

    protected override CancellationToken CancellationTokenCore
    {
        get
        {
            if (_any is null)
            {
                _timer = limit is { } time ? new CancellationTokenSource(Left(time), clock) : null;
                _any = CancellationTokenSource.CreateLinkedTokenSource(call.CancellationToken, over, _timer?.Token ?? CancellationToken.None);
            }

            return _any.Token;
        }
    }

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

    protected override IDictionary<object, object> UserStateCore
    {
        get
        {
            // The framework looks there for the request of a call that stands for another.
            call.UserState.TryAdd("__HttpContext", _request);
            return call.UserState;
        }
    }

    protected override ContextPropagationToken CreatePropagationTokenCore(ContextPropagationOptions? options) => call.CreatePropagationToken(options);

    protected override Task WriteResponseHeadersAsyncCore(Metadata responseHeaders) => call.WriteResponseHeadersAsync(responseHeaders);

    // What the client gives runs from the arrival of the request, before its message was read.
    private TimeSpan? ClientsTimeLeft() =>
        call.Deadline != DateTime.MaxValue && ClientTimeout.Of(_request.Request) is { } given && Record is { } record ? given - Stopwatch.GetElapsedTime(record.Begun) : null;

    private TimeSpan Left(TimeSpan time) => TimeSpan.FromTicks(Math.Max(0, (time - clock.GetElapsedTime(_begun)).Ticks));
}
