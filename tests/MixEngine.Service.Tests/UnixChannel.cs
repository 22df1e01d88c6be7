using System.Net;
using System.Net.Sockets;
using Grpc.Net.Client;

namespace MixEngine.Service.Tests;

/// <summary>Channels of the real client over a Unix domain socket.</summary>
internal static class UnixChannel
{
    private const string Address = "http://localhost";

    public static GrpcChannel To(string socketPath) =>
        GrpcChannel.ForAddress(Address, new GrpcChannelOptions { MaxReceiveMessageSize = null, HttpHandler = Handler(socketPath), DisposeHttpClient = true });

    /// <summary>The same for JSON: HTTP/2, the one version spoken there.</summary>
    public static HttpClient HttpTo(string socketPath) => new(Handler(socketPath))
    {
        BaseAddress = new Uri(Address),
        DefaultRequestVersion = HttpVersion.Version20,
        DefaultVersionPolicy = HttpVersionPolicy.RequestVersionExact,
    };

    private static SocketsHttpHandler Handler(string socketPath) => new()
    {
        ConnectCallback = async (_, cancel) =>
        {
            var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
            try
            {
                await socket.ConnectAsync(new UnixDomainSocketEndPoint(socketPath), cancel);
                return new NetworkStream(socket, ownsSocket: true);
            }
            catch
            {
                socket.Dispose();
                throw;
            }
        },
    };
}
