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
    /// <summary>A call that has one answer.</summary>
    public DeadlineCallContext Bound(ServerCallContext call) => new(call, call.Deadline == DateTime.MaxValue ? options.WhereNoneIsGiven : null, drain.Over, clock);

    /// <summary>A call that may go on for as long as its client likes.</summary>
    public DeadlineCallContext BoundStream(ServerCallContext call) => new(call, null, drain.Over, clock);

    /// <summary>Why a call was cancelled; null: not because of its time.</summary>
    public RpcException? Told(DeadlineCallContext call) =>
        call.HasRunOut ? new RpcException(new Status(
            StatusCode.DeadlineExceeded,
            FormattableString.Invariant($"No answer within {options.WhereNoneIsGiven.TotalSeconds} seconds, the limit where a caller sets no deadline. Ask for less, or set a later deadline.")))
        : drain.Over.IsCancellationRequested && !call.IsGivenUp ? new RpcException(new Status(
            StatusCode.Unavailable, "The service is ending and hands this call back unanswered. Ask again, here or elsewhere."))
        : null;
}
