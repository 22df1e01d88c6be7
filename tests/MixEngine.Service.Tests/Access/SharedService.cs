using System.Net;
using Grpc.Core;
using Grpc.Net.Client;
using MixEngine.Service.Access;
using MixEngine.Service.Options;
using MixEngine.Service.Tests.Hosting;
using MixEngine.Storage.Tests;
using Npgsql;

namespace MixEngine.Service.Tests.Access;

/// <summary>A service that several owners share: TLS, and a key for every call.</summary>
public class SharedService : IAsyncLifetime
{
    private readonly TemporaryFolder _certificates = new();
    private GrpcChannel? _channel;
    private GrpcChannel? _clear;

    internal TestService Service { get; private set; } = null!;

    /// <summary>The database of PostgreSQL to use; null: a file.</summary>
    public string? Postgres { get; init; }

    /// <summary>How often each key may ask.</summary>
    public double CallsPerSecond { get; init; }

    public CallInvoker Invoker => _channel!.CreateCallInvoker();

    /// <summary>At the port without TLS.</summary>
    public CallInvoker ClearInvoker => _clear!.CreateCallInvoker();

    public HttpClient Https { get; private set; } = null!;

    /// <summary>HTTP over the socket.</summary>
    public HttpClient SocketHttp { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        Certificates.MakeAuthority(_certificates.Path);
        Certificates.Issue(_certificates.Path, "sea", "sea");
        Service = new TestService
        {
            Options = options => options with
            {
                Data = new DataOptions { Directory = options.Data.Directory, Postgres = Postgres },
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
        _clear = GrpcChannel.ForAddress(Service.GrpcAddress);
        Https = new HttpClient(TlsTests.Trusting(_certificates.Path)) { BaseAddress = new Uri(Service.HttpsAddress) };
        SocketHttp = UnixChannel.HttpTo(Service.Socket);
    }

    /// <summary>Makes a key as whoever runs the service does.</summary>
    public string Key(string owner, string scope = "write") => Keys("create", "--owner", owner, "--scope", scope).Output.Trim();

    /// <summary>Runs a command about keys on the service's data.</summary>
    public (int ExitCode, string Output, string Errors) Keys(params string[] arguments) => KeysAt(TimeProvider.System, arguments);

    /// <summary>Runs a command about keys by another clock than the service's.</summary>
    public (int ExitCode, string Output, string Errors) KeysAt(TimeProvider clock, params string[] arguments)
    {
        var (output, errors) = (new StringWriter(), new StringWriter());
        var exitCode = new KeyCommands(new Dictionary<string, string>(), clock, output, errors).Invoke([.. arguments, .. Postgres is null ? new[] { "--data", Service.DataFolder } : ["--database", Postgres]]);
        return (exitCode, output.ToString(), errors.ToString());
    }

    /// <summary>Reads the database behind the service's back: the first column of every row.</summary>
    public List<string> Query(string sql)
    {
        if (Postgres is null)
        {
            return Service.Query(sql);
        }

        using var connection = new NpgsqlConnection(Postgres + ";Pooling=False");
        connection.Open();
        using var command = new NpgsqlCommand(sql, connection);
        using var reader = command.ExecuteReader();
        var rows = new List<string>();
        while (reader.Read())
        {
            rows.Add(reader.GetString(0));
        }

        return rows;
    }

    public static Metadata With(string key) => new() { { "authorization", "Bearer " + key } };

    public async ValueTask DisposeAsync()
    {
        Https.Dispose();
        SocketHttp.Dispose();
        _channel!.Dispose();
        _clear!.Dispose();
        await Service.DisposeAsync();
        _certificates.Dispose();
    }
}

/// <summary>The same on a database of PostgreSQL.</summary>
public sealed class SharedServiceOnPostgres : SharedService
{
    public SharedServiceOnPostgres(PostgresServer server) => Postgres = server.NewDatabase().ConnectionString;
}
