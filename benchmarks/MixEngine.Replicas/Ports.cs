using System.Net;
using System.Net.Sockets;

namespace MixEngine.Replicas;

/// <summary>Ports that nobody listens on.</summary>
internal static class Ports
{
    public static int Free()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
