namespace MixEngine.Service.Options;

/// <summary>What the service tells of its work to those who run it. Nothing by default.</summary>
public sealed class TelemetryOptions
{
    /// <summary>What every variable of OpenTelemetry begins with.</summary>
    public const string StandardPrefix = "OTEL_";

    private const string EndpointVariable = "OTEL_EXPORTER_OTLP_ENDPOINT";

    /// <summary>Whether metrics are served under /metrics, to callers with the scope admin.</summary>
    public bool Metrics { get; init; }

    /// <summary>The collector to which traces and metrics are sent. Null: the one that the standard variables name, if any.</summary>
    public Uri? Otlp { get; init; }

    /// <summary>OpenTelemetry's own variables of the environment, by name. The exporter follows them once a collector is named, here or there.</summary>
    public IReadOnlyDictionary<string, string> Standard { get; init; } = new Dictionary<string, string>();

    /// <summary>Whether traces and metrics are sent anywhere.</summary>
    public bool IsSent => Otlp is not null || !string.IsNullOrWhiteSpace(Standard.GetValueOrDefault(EndpointVariable));

    /// <summary>What is wrong with these options, in plain words.</summary>
    public IEnumerable<OptionFault> Faults()
    {
        if (Otlp is null && IsSent && !(Uri.TryCreate(Standard[EndpointVariable], UriKind.Absolute, out var url) && url.Scheme is "http" or "https"))
        {
            yield return new OptionFault("otlp", $"{EndpointVariable} is '{Standard[EndpointVariable]}', which is not an address such as http://127.0.0.1:4317.");
        }
    }
}
