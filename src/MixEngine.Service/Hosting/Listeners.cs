using System.Net;
using System.Net.Security;
using System.Net.Sockets;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.AspNetCore.Server.Kestrel.Https;
using Microsoft.AspNetCore.Server.Kestrel.Transport.Sockets;
using MixEngine.Service.Access;
using MixEngine.Service.Options;
using ListenOptions = MixEngine.Service.Options.ListenOptions;

namespace MixEngine.Service.Hosting;

/// <summary>Where the service listens, and what it speaks there.</summary>
internal static class Listeners
{
    // tcp(7): how long what is sent may stay unacknowledged, or wait before a closed window, in milliseconds.
    private const int TcpLevel = 6, TcpUserTimeout = 18;

    public static void Add(IWebHostBuilder host, ServiceOptions options)
    {
        host.UseKestrelCore().UseKestrelHttpsConfiguration().ConfigureKestrel(kestrel => Listen(kestrel, options));
        host.UseSockets(sockets => sockets.CreateBoundListenSocket = endpoint => Bind(endpoint, options.Silence.TakeWithin));
    }

    private static void Listen(KestrelServerOptions kestrel, ServiceOptions options)
    {
        kestrel.AddServerHeader = false;

        // A stream's client may take its time with the answers: that is what holds the solving back. One that has died is found out by its silence. Nor would a least pace find out who stops in
        // the middle of a large answer over HTTP/1.1: it counts from the beginning, hours for megabytes.
        kestrel.Limits.MinResponseDataRate = null;
        kestrel.Limits.Http2.KeepAlivePingDelay = options.Silence.PingAfter;
        kestrel.Limits.Http2.KeepAlivePingTimeout = options.Silence.AnswerWithin;
        kestrel.Limits.MaxRequestBodySize = MessageSizeLimit.MostBodyBytes;
        if (options.Listen.Grpc is { } grpc)
        {
            kestrel.Listen(grpc, endpoint =>
            {
                endpoint.Protocols = HttpProtocols.Http2;
                AskForKeys(endpoint, options.Access.RequireKey);
            });
        }

        if (options.Listen.Http is { } http)
        {
            kestrel.Listen(http, endpoint =>
            {
                endpoint.Protocols = HttpProtocols.Http1;
                AskForKeys(endpoint, options.Access.RequireKey);
                var logger = endpoint.ApplicationServices.GetRequiredService<ILogger<Http2Refusal>>();
                var refusal = new Http2Refusal(SpeaksHttp1Only(options.Listen), logger);
                endpoint.Use(next => connection => refusal.OrNextAsync(connection, next));
            });
        }

        if (options.Tls.Https is { } https)
        {
            kestrel.Listen(https, endpoint =>
            {
                // Which of the two is spoken is settled by ALPN.
                endpoint.Protocols = HttpProtocols.Http1AndHttp2;
                AskForKeys(endpoint, options.Access.RequireKey || options.Tls.IsReachable);
                var certificate = endpoint.ApplicationServices.GetRequiredService<ServerCertificate>();
                endpoint.UseHttps(new TlsHandshakeCallbackOptions
                {
                    OnConnection = _ => ValueTask.FromResult(new SslServerAuthenticationOptions { ServerCertificateContext = certificate.Current }),
                });
            });
        }

        kestrel.ListenUnixSocket(options.Socket.Path, endpoint => endpoint.Protocols = HttpProtocols.Http2);
    }

    private static void AskForKeys(Microsoft.AspNetCore.Server.Kestrel.Core.ListenOptions endpoint, bool isAsked)
    {
        if (isAsked)
        {
            endpoint.Use(next => connection =>
            {
                connection.Features.Set(KeyRequired.Instance);
                return next(connection);
            });
        }
    }

    private static string SpeaksHttp1Only(ListenOptions listen) =>
        listen.Grpc is { } grpc
            ? $"This port speaks HTTP/1.1 (JSON) only. For HTTP/2 (gRPC) use {grpc} or the service's socket."
            : "This port speaks HTTP/1.1 (JSON) only. For HTTP/2 (gRPC) use the service's socket, or start it with --grpc 127.0.0.1:PORT.";

    private static Socket Bind(EndPoint endpoint, TimeSpan takeWithin)
    {
        var socket = SocketTransportOptions.CreateDefaultBoundListenSocket(endpoint);
        if (endpoint is UnixDomainSocketEndPoint path)
        {
            // Bound but not listening yet, a socket lets nobody in: there is no moment at which others could.
            PrivateFiles.Restrict(path.ToString());
        }
        else if (OperatingSystem.IsLinux())
        {
            // Over HTTP/1.1 there are no pings: whoever takes nothing of its answer is found out by the kernel, which knows of every byte. Accepted connections have it from here.
            socket.SetRawSocketOption(TcpLevel, TcpUserTimeout, BitConverter.GetBytes((int)takeWithin.TotalMilliseconds));
        }

        return socket;
    }
}
