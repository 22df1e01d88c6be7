using System.Net;
using Grpc.Core;
using Grpc.Net.Client;
using MixEngine.Service.Access;
using MixEngine.Service.Options;
using MixEngine.Service.Tests.Hosting;

namespace MixEngine.Service.Tests.Access;

/// <summary>A service that several owners share: TLS, and a key for every call.</summary>
public sealed class SharedService : IAsyncLifetime
{
    private readonly TemporaryFolder _certificates = new();
    private GrpcChannel? _channel;

    internal TestService Service { get; private set; } = null!;

    /// <summary>How often each key may ask.</summary>
    public double CallsPerSecond { get; init; }

    public CallInvoker Invoker => _channel!.CreateCallInvoker();

    public HttpClient Https { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        Certificates.MakeAuthority(_certificates.Path);
        Certificates.Issue(_certificates.Path, "sea", "sea");
        Service = new TestService
        {
            Options = options => options with
            {
                Listen = new ListenOptions { Grpc = options.Listen.Grpc, Http = options.Listen.Http },
                Tls = new TlsOptions
                {
                    Https = new IPEndPoint(IPAddress.Loopback, 0),
                    Certificate = Path.Combine(_certificates.Path, "sea.pem"),
                    CertificateKey = Path.Combine(_certificates.Path, "sea.key"),
                },
                Access = new AccessOptions { RequireKey = true, CallsPerSecond = CallsPerSecond },
            },
        };
        await Service.InitializeAsync();
        _channel = GrpcChannel.ForAddress(Service.HttpsAddress, new GrpcChannelOptions { HttpHandler = TlsTests.Trusting(_certificates.Path), MaxReceiveMessageSize = null });
        Https = new HttpClient(TlsTests.Trusting(_certificates.Path)) { BaseAddress = new Uri(Service.HttpsAddress) };
    }

    /// <summary>Makes a key as whoever runs the service does.</summary>
    public string Key(string owner, string scope = "write") => Keys("create", "--owner", owner, "--scope", scope).Output.Trim();

    /// <summary>Runs a command about keys on the service's data.</summary>
    public (int ExitCode, string Output, string Errors) Keys(params string[] arguments) => KeysAt(TimeProvider.System, arguments);

    /// <summary>Runs a command about keys by another clock than the service's.</summary>
    public (int ExitCode, string Output, string Errors) KeysAt(TimeProvider clock, params string[] arguments)
    {
        var (output, errors) = (new StringWriter(), new StringWriter());
        var exitCode = new KeyCommands(new Dictionary<string, string>(), clock, output, errors).Invoke([.. arguments, "--data", Service.DataFolder]);
        return (exitCode, output.ToString(), errors.ToString());
    }

    public static Metadata With(string key) => new() { { "authorization", "Bearer " + key } };

    public async ValueTask DisposeAsync()
    {
        Https.Dispose();
        _channel!.Dispose();
        await Service.DisposeAsync();
        _certificates.Dispose();
    }
}
