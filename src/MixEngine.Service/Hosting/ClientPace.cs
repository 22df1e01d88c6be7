using Grpc.AspNetCore.Server;
using Grpc.Core;
using Microsoft.AspNetCore.Server.Kestrel.Core.Features;

namespace MixEngine.Service.Hosting;

/// <summary>How slowly a client may ask: whoever streams may pause for as long as it is alive, which pings find out.</summary>
internal static class ClientPace
{
    /// <summary>
    /// Sets the pace of one request, before anything of it is read: Kestrel's watch on a body that has begun cannot be called off, and takes the whole connection
    /// from a client that sends nothing for some seconds.
    /// </summary>
    public static Task SetAsync(HttpContext context, RequestDelegate next)
    {
        if (context.GetEndpoint()?.Metadata.GetMetadata<GrpcMethodMetadata>()?.Method.Type is MethodType.ClientStreaming or MethodType.DuplexStreaming
            && context.Features.Get<IHttpMinRequestBodyDataRateFeature>() is { } asking)
        {
            asking.MinDataRate = null;
        }

        return next(context);
    }
}
