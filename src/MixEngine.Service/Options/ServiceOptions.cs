namespace MixEngine.Service.Options;

/// <summary>All that can be said to a service when it starts, one class for each feature.</summary>
public sealed record ServiceOptions(SocketOptions Socket, DataOptions Data)
{
    /// <summary>When it ends by itself.</summary>
    public IdleOptions Idle { get; init; } = new();

    /// <summary>TCP ports.</summary>
    public ListenOptions Listen { get; init; } = new();

    /// <summary>The add-in for Excel.</summary>
    public ExcelOptions Excel { get; init; } = new();

    /// <summary>Deadlines.</summary>
    public DeadlineOptions Deadline { get; init; } = new();

    /// <summary>Every fault of every feature, in plain words.</summary>
    public IReadOnlyList<string> Faults() => [.. Socket.Faults(), .. Data.Faults(), .. Idle.Faults(), .. Listen.Faults(), .. Excel.Faults()];
}
