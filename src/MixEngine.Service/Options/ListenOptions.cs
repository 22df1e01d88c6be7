using System.Net;

namespace MixEngine.Service.Options;

/// <summary>TCP ports without encryption, besides the socket. None by default.</summary>
public sealed class ListenOptions
{
    /// <summary>Address for gRPC: HTTP/2 in clear text. Null: none.</summary>
    public IPEndPoint? Grpc { get; init; }

    /// <summary>Address for JSON: HTTP/1.1 in clear text. Null: none.</summary>
    public IPEndPoint? Http { get; init; }

    /// <summary>What is wrong with these options, in plain words.</summary>
    public IEnumerable<OptionFault> Faults()
    {
        foreach (var (setting, address) in new[] { ("grpc", Grpc), ("http", Http) })
        {
            if (address is not null && !IPAddress.IsLoopback(address.Address))
            {
                yield return new OptionFault(setting, $"{address} can be reached from other machines, and nothing would be encrypted: anybody on the way could read and change your shelves. Use 127.0.0.1:{address.Port}, or --https with a certificate.");
            }
        }

        if (Grpc is { Port: not 0 } && Grpc.Equals(Http))
        {
            yield return new OptionFault("grpc", $"--grpc and --http are both {Grpc}: without encryption one port speaks either HTTP/2 (gRPC) or HTTP/1.1 (JSON). Give each its own port, or use --https, which speaks both.");
        }
    }
}
