using System.Net.Sockets;
using Grpc.Net.Client;

namespace MixEngine.Service.Tests;

/// <summary>Channels of the real client over a Unix domain socket.</summary>
internal static class UnixChannel
{
    public static GrpcChannel To(string socketPath) => GrpcChannel.ForAddress("http://localhost", new GrpcChannelOptions
    {
        MaxReceiveMessageSize = null,
        HttpHandler = new SocketsHttpHandler
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
        },
        DisposeHttpClient = true,
    });
}
