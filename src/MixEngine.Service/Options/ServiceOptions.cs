namespace MixEngine.Service.Options;

/// <summary>All that can be said to a service when it starts, one class for each feature.</summary>
public sealed record ServiceOptions(SocketOptions Socket, DataOptions Data)
{
    /// <summary>When it ends by itself.</summary>
    public IdleOptions Idle { get; init; } = new();

    /// <summary>TCP ports without encryption.</summary>
    public ListenOptions Listen { get; init; } = new();

    /// <summary>The encrypted port.</summary>
    public TlsOptions Tls { get; init; } = new();

    /// <summary>Who is answered, and how often.</summary>
    public AccessOptions Access { get; init; } = new();

    /// <summary>The add-in for Excel.</summary>
    public ExcelOptions Excel { get; init; } = new();

    /// <summary>Deadlines.</summary>
    public DeadlineOptions Deadline { get; init; } = new();

    /// <summary>When a client counts as dead.</summary>
    public SilenceOptions Silence { get; init; } = new();

    /// <summary>How it ends when it is asked to.</summary>
    public DrainOptions Drain { get; init; } = new();

    /// <summary>Its log.</summary>
    public LogOptions Log { get; init; } = new();

    /// <summary>Traces and metrics.</summary>
    public TelemetryOptions Telemetry { get; init; } = new();

    /// <summary>Every fault of every feature.</summary>
    public IReadOnlyList<OptionFault> Faults() =>
    [
        .. Socket.Faults(), .. Data.Faults(), .. Idle.Faults(), .. Listen.Faults(), .. Tls.Faults(), .. Access.Faults(), .. Excel.Faults(Tls), .. Deadline.Faults(), .. Silence.Faults(), .. Drain.Faults(), .. Telemetry.Faults(),
    ];
}
