using MixEngine.Service.Telemetry;
using MixEngine.Storage;

namespace MixEngine.Service.Access;

/// <summary>What a caller must be allowed to do for a request to be answered.</summary>
internal static class NeededScope
{
    // Whatever is not listed needs to write: a call that is added is closed until somebody has looked at it.
    private static readonly HashSet<string> Reading = new(StringComparer.Ordinal)
    {
        "mixengine.v1.Batch/Compute",
        "mixengine.v1.Layering/AuditRamp", "mixengine.v1.Layering/ExtendRamp", "mixengine.v1.Layering/StepBetween", "mixengine.v1.Layering/RampAround",
        "mixengine.v1.Layering/GlazeTo", "mixengine.v1.Layering/Undercoat", "mixengine.v1.Layering/Finish", "mixengine.v1.Layering/Light", "mixengine.v1.Layering/Eyes",
        "mixengine.v1.Mixing/Predict", "mixengine.v1.Mixing/Ramp", "mixengine.v1.Mixing/Match", "mixengine.v1.Mixing/MatchWithProgress", "mixengine.v1.Mixing/Glaze", "mixengine.v1.Mixing/Cover",
        "mixengine.v1.Schemes/GetSchemeSchema", "mixengine.v1.Schemes/CheckScheme", "mixengine.v1.Schemes/ListSchemeRuns", "mixengine.v1.Schemes/GetSchemeRun",
        "mixengine.v1.Schemes/ReplaySchemeRun", "mixengine.v1.Schemes/CompareSchemeRun", "mixengine.v1.Schemes/ListMixes",
        "mixengine.v1.Shelves/ListShelves", "mixengine.v1.Shelves/ExportShelf", "mixengine.v1.Shelves/ListPaints", "mixengine.v1.Shelves/GetPaint",
        "mixengine.v1.Swatches/ListSwatches", "mixengine.v1.Swatches/ExportSwatches", "mixengine.v1.Swatches/AdviseSwatch",
        "grpc.reflection.v1.ServerReflection/ServerReflectionInfo", "grpc.reflection.v1alpha.ServerReflection/ServerReflectionInfo",
    };

    /// <summary>What this request needs.</summary>
    public static Scope Of(HttpContext request) =>
        request.Request.Path.StartsWithSegments(Exporting.MetricsPath) ? Scope.Admin
        : RpcName.Of(request) is { } name ? OfRpc(name)
        : Scope.Read;

    /// <summary>What a call of the contract needs.</summary>
    /// <param name="name">"mixengine.v1.Mixing/Predict".</param>
    public static Scope OfRpc(string name) => Reading.Contains(name) ? Scope.Read : Scope.Write;
}
