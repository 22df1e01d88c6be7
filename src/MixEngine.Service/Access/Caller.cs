using Grpc.Core;
using MixEngine.Service.Calls;
using MixEngine.Service.Telemetry;
using MixEngine.Storage;

namespace MixEngine.Service.Access;

/// <summary>Who asks. Everything a call reads or writes is its caller's own.</summary>
/// <param name="Owner">Whose data the call works on.</param>
/// <param name="Scope">What the caller may do.</param>
/// <param name="Key">The id of the caller's key; null: the caller is at home and needs none.</param>
internal sealed record Caller(Owner Owner, Scope Scope, string? Key)
{
    /// <summary>The user of a service at home, who needs not say who they are.</summary>
    public static Caller AtHome { get; } = new(Owner.Home, Scope.Admin, null);

    /// <summary>Whose data a call works on: the owner that its access check found; where nothing is checked, the one at home.</summary>
    public static Owner Of(ServerCallContext call) => (call is DeadlineCallContext { Record: { } record } ? record.Caller : Of(call.GetHttpContext())).Owner;

    /// <summary>Who asks.</summary>
    public static Caller Of(HttpContext request) => CallRecord.Of(request)?.Caller ?? AtHome;
}
