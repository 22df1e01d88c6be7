using System.Net;
using Google.Protobuf;
using Grpc.Net.Client;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using MixEngine.Service.Hosting;
using MixEngine.Service.Options;
using MixEngine.V1;

namespace MixEngine.Service.Tests;

/// <summary>The real service in this process, with the real client over its socket and an HTTP client at its JSON port.</summary>
public sealed class TestService : IAsyncLifetime
{
    private readonly TemporaryFolder _folder = new();
    private RunningService? _service;
    private GrpcChannel? _channel;

    /// <summary>Deadlines other than the default, to be set before it starts.</summary>
    public DeadlineOptions Deadline { get; init; } = new();

    /// <summary>Options other than those below, to be set before it starts.</summary>
    public Func<ServiceOptions, ServiceOptions> Options { get; init; } = options => options;

    public string Socket => _folder.Socket;

    internal LogCapture Logs { get; } = new();

    public GrpcChannel Channel => _channel!;

    public Mixing.MixingClient Mixing => new(Channel);

    public V1.Shelves.ShelvesClient Shelves => new(Channel);

    public Swatches.SwatchesClient Swatches => new(Channel);

    public HttpClient Http { get; private set; } = null!;

    public string GrpcAddress => _service!.TcpAddresses[0];

    public string HttpAddress => _service!.TcpAddresses[1];

    public string HttpsAddress => _service!.TcpAddresses[2];

    public RequestsUnderWay Requests => _service!.Services.GetRequiredService<RequestsUnderWay>();

    /// <summary>What it has an answer for.</summary>
    public IReadOnlyList<Endpoint> Endpoints => _service!.Services.GetRequiredService<EndpointDataSource>().Endpoints;

    public async ValueTask InitializeAsync()
    {
        _service = await RunningService.StartAsync(
            Options(new ServiceOptions(new SocketOptions { Path = Socket }, new DataOptions { Directory = _folder.Data })
            {
                Listen = new ListenOptions { Grpc = new IPEndPoint(IPAddress.Loopback, 0), Http = new IPEndPoint(IPAddress.Loopback, 0) },
                Deadline = Deadline,
            }),
            logging => logging.AddProvider(Logs));

        // What a health check finds is told to who asks, not to the log.
        Logs.Declare(entry => entry.Category.StartsWith("Microsoft.Extensions.Diagnostics.HealthChecks", StringComparison.Ordinal));
        _channel = UnixChannel.To(Socket);
        Http = new HttpClient { BaseAddress = new Uri(HttpAddress) };
        Import("home", Coast.Table);
    }

    public ImportShelfResponse Import(string shelf, string table) =>
        Shelves.ImportShelf(new ImportShelfRequest { Shelf = shelf, FileName = "coast.csv", Content = ByteString.CopyFromUtf8(table) }, deadline: DateTime.UtcNow.AddMinutes(2));

    /// <summary>Asks it to end, and waits until it has.</summary>
    public async Task EndAsync() => await _service!.DisposeAsync();

    /// <summary>Changes one row of the database behind the service's back.</summary>
    public void Tamper(string sql) => Assert.Equal(1, Sql(sql));

    /// <summary>The folder of its database.</summary>
    public string DataFolder => _folder.Data;

    /// <summary>Reads the database behind the service's back: the first column of every row.</summary>
    public List<string> Query(string sql)
    {
        using var connection = new SqliteConnection($"Data Source={Path.Combine(_folder.Data, "mixengine.db")}");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        using var reader = command.ExecuteReader();
        var rows = new List<string>();
        while (reader.Read())
        {
            rows.Add(reader.GetString(0));
        }

        return rows;
    }

    /// <summary>Writes into the database behind the service's back.</summary>
    public int Sql(string sql)
    {
        using var connection = new SqliteConnection($"Data Source={Path.Combine(_folder.Data, "mixengine.db")}");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        return command.ExecuteNonQuery();
    }

    public async ValueTask DisposeAsync()
    {
        Http.Dispose();
        _channel!.Dispose();
        await _service!.DisposeAsync();
        _folder.Dispose();
        Logs.AssertNothingUndeclared();
    }
}
