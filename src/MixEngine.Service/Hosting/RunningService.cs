using MixEngine.Service.Access;
using MixEngine.Service.Options;
using MixEngine.Storage;

namespace MixEngine.Service.Hosting;

/// <summary>A service from the moment it has its socket until it has let go of everything.</summary>
public sealed class RunningService : IAsyncDisposable
{
    private readonly SocketLock _lock;
    private readonly Database _database;
    private readonly WebApplication _app;
    private bool _ended;

    private RunningService(SocketLock socketLock, Database database, WebApplication app) => (_lock, _database, _app) = (socketLock, database, app);

    /// <summary>What the service is made of.</summary>
    public IServiceProvider Services => _app.Services;

    /// <summary>The addresses of its TCP ports, such as "http://127.0.0.1:5180", gRPC before JSON.</summary>
    public IReadOnlyList<string> TcpAddresses => [.. _app.Urls.Where(url => !url.Contains("unix:", StringComparison.Ordinal))];

    /// <summary>Starts a service; when it returns, the service answers.</summary>
    /// <param name="options">Without faults.</param>
    /// <param name="logging">Where to log.</param>
    /// <returns>Null: another service has the socket.</returns>
    /// <exception cref="OperationCanceledException">It was asked to end before it had started.</exception>
    /// <exception cref="UnusableDatabaseException">The database is at fault.</exception>
    /// <exception cref="NoAccessKeyException">Other machines could reach it, and there is no access key.</exception>
    /// <exception cref="IOException">A folder cannot be made, or a port is taken.</exception>
    /// <exception cref="UnauthorizedAccessException">A folder or the socket belongs to somebody else.</exception>
    public static async Task<RunningService?> StartAsync(ServiceOptions options, Action<ILoggingBuilder> logging)
    {
        if (SocketLock.TryTake(options.Socket.Path, options.Socket.LockPath) is not { } socketLock)
        {
            return null;
        }

        Database? database = null;
        WebApplication? app = null;
        try
        {
            database = OpenDatabase(options.Data);

            if (options.Tls.IsReachable && new AccessKeyStore(database).List().All(key => !key.Holds(TimeProvider.System.GetUtcNow())))
            {
                throw new NoAccessKeyException($"--https: {options.Tls.Https} can be reached from other machines, where nobody is answered without an access key, and there is none that holds. Make one first: mixengine key create --owner NAME --scope write");
            }

            // The socket is bound last: who can connect gets an answer.
            app = ServiceHost.Build(options, database, logging);
            await app.StartAsync();
            Log.Started(app.Logger, options.Socket.Path, database.Place, options.Listen.Grpc?.ToString(), options.Listen.Http?.ToString(), options.Tls.Https?.ToString());
            return new RunningService(socketLock, database, app);
        }
        catch
        {
            await (app?.DisposeAsync() ?? ValueTask.CompletedTask);
            database?.Dispose();
            socketLock.Dispose();
            throw;
        }
    }

    /// <summary>Waits until it is asked to end (SIGTERM, SIGINT, idleness) and has answered what was under way.</summary>
    public Task WaitForShutdownAsync() => _app.WaitForShutdownAsync();

    /// <summary>Opens the database that the options name; made where there is none.</summary>
    internal static Database OpenDatabase(DataOptions data)
    {
        if (data.Postgres is { } postgres)
        {
            return PostgresDatabase.Open(postgres);
        }

        PrivateFiles.CreateDirectory(data.Directory);
        PrivateFiles.CreateFile(data.DatabasePath);
        return SqliteDatabase.Open(data.DatabasePath);
    }

    /// <summary>Ends it and gives up its socket; a second time does nothing.</summary>
    public async ValueTask DisposeAsync()
    {
        if (_ended)
        {
            return;
        }

        _ended = true;
        await _app.StopAsync();
        await _app.DisposeAsync();
        _database.Dispose();
        _lock.Dispose();
    }
}
