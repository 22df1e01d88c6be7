namespace MixEngine.Service.Options;

/// <summary>What the service tells of its work to those who run it. Nothing by default.</summary>
public sealed class TelemetryOptions
{
    /// <summary>Whether metrics are served under /metrics, to callers with the scope admin.</summary>
    public bool Metrics { get; init; }

    /// <summary>The collector to which traces and metrics are sent. Null: none.</summary>
    public Uri? Otlp { get; init; }
}
