using Grpc.Core;
using MixEngine.Storage;

namespace MixEngine.Service.Access;

/// <summary>Who asks. Everything a call reads or writes is its caller's own.</summary>
internal static class Caller
{
    /// <summary>Whose data a call works on: the owner that its access check found; where nothing is checked, the one at home.</summary>
    public static Owner Of(ServerCallContext call) => call.GetHttpContext().Features.Get<Owner>() ?? Owner.Home;

    /// <summary>Says on whose data a request works, before any of it is answered.</summary>
    public static void Is(HttpContext request, Owner owner) => request.Features.Set(owner);
}
