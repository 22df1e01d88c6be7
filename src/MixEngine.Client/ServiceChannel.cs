using System.Net.Sockets;
using Grpc.Core;
using Grpc.Net.Client;
using Grpc.Net.Client.Balancer;
using Grpc.Net.Client.Configuration;
using Microsoft.Extensions.DependencyInjection;

namespace MixEngine.Client;

/// <summary>Channels to a service: one process, or several replicas among which calls go round.</summary>
public static class ServiceChannel
{
    /// <summary>An import of 16 MiB comes back as an export of about as much.</summary>
    private const int LargestAnswer = 64 << 20;

    private const int Attempts = 5;

    /// <summary>A channel to one service.</summary>
    /// <param name="address">unix:/path, http://host:port, https://host:port, or dns:///host:port (over TLS) for all addresses of a name.</param>
    /// <param name="key">The access key; null where the service asks for none.</param>
    /// <param name="authority">A PEM file of the certificate authority that issued the service's certificate, trusted besides the system's; null: the system's alone.</param>
    /// <exception cref="ArgumentException">It is no such address, the key would cross a network in the clear, the file holds no certificate, or nothing is encrypted there.</exception>
    public static GrpcChannel To(string address, string? key = null, string? authority = null)
    {
        if (address.StartsWith("unix:", StringComparison.OrdinalIgnoreCase))
        {
            var path = "/" + address["unix:".Length..].TrimStart('/');
            CheckUse(address, authority, secure: false);
            var handler = Handler(authority: null);
            handler.ConnectCallback = (_, cancel) => ConnectAsync(path, cancel);

            // A socket has no host: the address names one that no request goes to.
            return GrpcChannel.ForAddress("http://localhost", Options(handler, key, secure: false));
        }

        if (!Uri.TryCreate(address, UriKind.Absolute, out var uri) || uri.Scheme is not ("http" or "https" or "dns"))
        {
            throw new ArgumentException($"\"{address}\" is no address of a service; write unix:/path, http://host:port, https://host:port or dns:///host:port.", nameof(address));
        }

        Check(uri, key);
        var secure = uri.Scheme != "http";
        CheckUse(address, authority, secure);
        var options = Options(Handler(authority), key, secure);
        options.ServiceConfig!.LoadBalancingConfigs.Add(new RoundRobinConfig());
        return GrpcChannel.ForAddress(uri, options);
    }

    /// <summary>A channel to replicas of one service. Each call goes to the next that answers; one that is gone is passed over until it is back.</summary>
    /// <param name="replicas">Their addresses, all http://host:port or all https://host:port.</param>
    /// <param name="key">The access key; null where the service asks for none.</param>
    /// <param name="authority">A PEM file of the certificate authority that issued their certificates, trusted besides the system's; null: the system's alone.</param>
    /// <exception cref="ArgumentException">One is no such address, the key would cross a network in the clear, the file holds no certificate, or nothing is encrypted there.</exception>
    public static GrpcChannel To(IReadOnlyCollection<Uri> replicas, string? key = null, string? authority = null)
    {
        var scheme = replicas.FirstOrDefault()?.Scheme;
        if (scheme is not ("http" or "https") || replicas.Any(replica => replica.Scheme != scheme))
        {
            throw new ArgumentException("Give the addresses of the replicas, all http://host:port or all https://host:port.", nameof(replicas));
        }

        foreach (var replica in replicas)
        {
            Check(replica, key);
        }

        var secure = scheme == "https";
        CheckUse(replicas.First().ToString(), authority, secure);
        var options = Options(Handler(authority), key, secure);
        options.InitialReconnectBackoff = TimeSpan.FromMilliseconds(200);
        options.MaxReconnectBackoff = TimeSpan.FromSeconds(5);
        options.ServiceConfig!.LoadBalancingConfigs.Add(new RoundRobinConfig());
        options.ServiceProvider = new ServiceCollection()
            .AddSingleton<ResolverFactory>(new StaticResolverFactory(_ => [.. replicas.Select(replica => new BalancerAddress(replica.Host, replica.Port))]))
            .BuildServiceProvider();
        return GrpcChannel.ForAddress("static:///", options);
    }

    private static GrpcChannelOptions Options(SocketsHttpHandler handler, string? key, bool secure) => new()
    {
        HttpHandler = handler,
        DisposeHttpClient = true,
        MaxReceiveMessageSize = LargestAnswer,
        MaxSendMessageSize = null,
        Credentials = Credentials(key, secure),
        UnsafeUseInsecureChannelCallCredentials = !secure,
        ServiceConfig = new ServiceConfig { MethodConfigs = { Retrying() } },
    };

    private static ChannelCredentials Credentials(string? key, bool secure)
    {
        var credentials = secure ? ChannelCredentials.SecureSsl : ChannelCredentials.Insecure;
        return key is null ? credentials : ChannelCredentials.Create(credentials, CallCredentials.FromInterceptor((_, metadata) =>
        {
            metadata.Add("authorization", $"Bearer {key}");
            return Task.CompletedTask;
        }));
    }

    // What may be repeated stands in the protos; that the service was not there is the one reason to.
    private static MethodConfig Retrying()
    {
        var retrying = new MethodConfig
        {
            RetryPolicy = new RetryPolicy
            {
                MaxAttempts = Attempts,
                InitialBackoff = TimeSpan.FromMilliseconds(200),
                BackoffMultiplier = 3,
                MaxBackoff = TimeSpan.FromSeconds(10),
                RetryableStatusCodes = { StatusCode.Unavailable },
            },
        };

        // A stream of questions is opened again by who writes it: gRPC would open it by itself, and wait there for a writer whose write has failed meanwhile.
        foreach (var method in RepeatableCalls.All.Where(method => !method.IsClientStreaming))
        {
            retrying.Names.Add(new MethodName { Service = method.Service.FullName, Method = method.Name });
        }

        return retrying;
    }

    private static SocketsHttpHandler Handler(string? authority) => new()
    {
        SslOptions = { CertificateChainPolicy = authority is null ? null : Trust.Besides(authority) },
        UseProxy = false,
        ConnectTimeout = TimeSpan.FromSeconds(10),
        EnableMultipleHttp2Connections = true,
        KeepAlivePingDelay = TimeSpan.FromSeconds(30),
        KeepAlivePingTimeout = TimeSpan.FromSeconds(10),
    };

    private static async ValueTask<Stream> ConnectAsync(string path, CancellationToken cancel)
    {
        var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
        try
        {
            await socket.ConnectAsync(new UnixDomainSocketEndPoint(path), cancel);
            return new NetworkStream(socket, ownsSocket: true);
        }
        catch
        {
            socket.Dispose();
            throw;
        }
    }

    private static void Check(Uri address, string? key)
    {
        if (key is not null && address.Scheme == "http" && !address.IsLoopback)
        {
            throw new ArgumentException($"{address} is not encrypted, and everybody on the way would read the access key; write https://.", nameof(address));
        }
    }

    private static void CheckUse(string address, string? authority, bool secure)
    {
        if (authority is not null && !secure)
        {
            throw new ArgumentException($"{address} shows no certificate that \"{authority}\" could vouch for; write https://, or leave the certificate authority out.", nameof(authority));
        }
    }
}
