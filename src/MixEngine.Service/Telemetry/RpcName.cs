using Grpc.AspNetCore.Server;
using Microsoft.AspNetCore.Grpc.JsonTranscoding;

namespace MixEngine.Service.Telemetry;

/// <summary>What a call is called in the contract, however it came, as gRPC or as JSON; stands with what else is known of its endpoint.</summary>
/// <param name="Text">Such as "mixengine.v1.Mixing/Predict".</param>
internal sealed record RpcName(string Text)
{
    /// <summary>The name of the call that a request is; null where it is no call that is known.</summary>
    public static string? Of(HttpContext context) => context.GetEndpoint()?.Metadata is { } endpoint ? (endpoint.GetMetadata<RpcName>() ?? Of(endpoint))?.Text : null;

    /// <summary>The name of the call to which an endpoint leads; null where it leads to none.</summary>
    public static RpcName? Of(IEnumerable<object> endpoint)
    {
        var json = endpoint.OfType<GrpcJsonTranscodingMetadata>().LastOrDefault()?.MethodDescriptor;
        var grpc = endpoint.OfType<GrpcMethodMetadata>().LastOrDefault()?.Method;
        return json is not null ? new RpcName($"{json.Service.FullName}/{json.Name}")
            : grpc is not null ? new RpcName(grpc.FullName.TrimStart('/'))
            : null;
    }
}
