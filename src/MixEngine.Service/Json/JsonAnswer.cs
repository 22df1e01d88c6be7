using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Rpc;
using MixEngine.Service.Refusals;
using MixEngine.Service.Telemetry;

namespace MixEngine.Service.Json;

/// <summary>A google.rpc.Status as JSON, for requests that never reach a call.</summary>
internal static class JsonAnswer
{
    /// <summary>The types that an answer may hold within an Any. Without them, a refusal's details make the answer an empty error.</summary>
    public static TypeRegistry Details { get; } = TypeRegistry.FromFiles(ErrorDetailsReflection.Descriptor);

    private static readonly JsonFormatter Formatter = new(JsonFormatter.Settings.Default.WithFormatDefaultValues(true).WithTypeRegistry(Details));

    public static Task WriteAsync(HttpContext context, int httpStatus, Refusal refusal) => WriteAsync(context, httpStatus, refusal.ToStatus());

    public static Task WriteAsync(HttpContext context, int httpStatus, Google.Rpc.Status status)
    {
        CallRecord.Ended(context, (Grpc.Core.StatusCode)status.Code);
        context.Response.StatusCode = httpStatus;
        context.Response.ContentType = "application/json";
        return context.Response.WriteAsync(Formatter.Format(status));
    }
}
