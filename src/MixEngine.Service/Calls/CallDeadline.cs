using Grpc.Core;

namespace MixEngine.Service.Calls;

/// <summary>When a call must end, and the token that tells of it. The token is made when it is asked for: most calls are answered before anybody asks. Used by one thread at a time.</summary>
/// <param name="call">As it came.</param>
/// <param name="limit">How long it may take besides; null: until its own deadline.</param>
/// <param name="over">Tells that the service ends.</param>
/// <param name="clock">The time.</param>
internal sealed class CallDeadline(ServerCallContext call, TimeSpan? limit, CancellationToken over, TimeProvider clock) : IDisposable
{
    private readonly long _begun = clock.GetTimestamp();
    private CancellationTokenSource? _timer;
    private CancellationTokenSource? _any;

    /// <summary>The client's deadline, or the limit where that comes first.</summary>
    public DateTime Time { get; } = limit is { } time && clock.GetUtcNow().UtcDateTime + time is var end && end < call.Deadline ? end : call.Deadline;

    /// <summary>Cancelled at the limit and at the deadline, when the caller gives up, and when the service ends.</summary>
    public CancellationToken Token
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

    /// <summary>Whether the limit was reached.</summary>
    public bool HasRunOut => _timer is { IsCancellationRequested: true };

    /// <inheritdoc/>
    public void Dispose()
    {
        _any?.Dispose();
        _timer?.Dispose();
    }

    private TimeSpan Left(TimeSpan time) => TimeSpan.FromTicks(Math.Max(0, (time - clock.GetElapsedTime(_begun)).Ticks));
}
