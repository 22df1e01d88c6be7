namespace MixEngine.Client;

/// <summary>How a batch is asked.</summary>
public sealed record BatchOptions
{
    /// <summary>Streams at once: about as many as there are replicas.</summary>
    public int Streams { get; init; } = 1;

    /// <summary>Items under way on one stream.</summary>
    public int ItemsPerStream { get; init; } = 64;

    /// <summary>How long to go on trying while no stream brings an answer.</summary>
    public TimeSpan Patience { get; init; } = TimeSpan.FromMinutes(2);

    /// <summary>Told of every stream that broke and is opened again.</summary>
    public Action<Grpc.Core.RpcException>? OnBroken { get; init; }
}
