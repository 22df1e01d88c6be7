using Grpc.AspNetCore.Server;
using Microsoft.AspNetCore.Grpc.JsonTranscoding;

namespace MixEngine.Service.Telemetry;

/// <summary>What a call is called in the contract, however it came: as gRPC or as JSON.</summary>
internal static class RpcName
{
    /// <summary>"mixengine.v1.Mixing/Predict"; null where the request is no call that is known.</summary>
    public static string? Of(HttpContext context)
    {
        var endpoint = context.GetEndpoint();
        return endpoint?.Metadata.GetMetadata<GrpcJsonTranscodingMetadata>() is { } json ? $"{json.MethodDescriptor.Service.FullName}/{json.MethodDescriptor.Name}"
            : endpoint?.Metadata.GetMetadata<GrpcMethodMetadata>() is { } grpc ? grpc.Method.FullName.TrimStart('/')
            : null;
    }
}
