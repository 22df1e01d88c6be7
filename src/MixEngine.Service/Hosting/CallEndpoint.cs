using Microsoft.AspNetCore.Grpc.JsonTranscoding;
using MixEngine.Service.Calls;
using MixEngine.Service.Json;
using MixEngine.Service.Telemetry;

namespace MixEngine.Service.Hosting;

/// <summary>What is done with the requests of some calls alone stands at their endpoints: others do not pass through it, and nobody looks for each request which it is.</summary>
internal static class CallEndpoint
{
    /// <summary>Adds to the endpoint of a call what its requests need, and what it is called.</summary>
    public static void Add(EndpointBuilder endpoint)
    {
        if (RpcName.Of(endpoint.Metadata) is not { } name || endpoint.RequestDelegate is not { } answer)
        {
            return;
        }

        endpoint.Metadata.Add(name);
        RequestDelegate readable = endpoint.Metadata.OfType<GrpcJsonTranscodingMetadata>().LastOrDefault() is { } json
            ? context => JsonRequest.CheckAsync(context, answer, json)
            : context => UnreadableMessage.CheckAsync(context, answer);
        endpoint.RequestDelegate = context => MessageSizeLimit.CheckAsync(context, readable);
    }
}
