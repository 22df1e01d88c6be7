using System.Diagnostics;
using Grpc.Core;
using Grpc.Net.Client;
using MixEngine.V1;

namespace MixEngine.Cli.Connection;

/// <summary>The service that this command asks: one that was named, or this user's own.</summary>
internal sealed class ServiceConnection : IDisposable
{
    /// <summary>An import of 16 MiB comes back as an export of about as much.</summary>
    private const int LargestAnswer = 64 << 20;

    /// <summary>Twice more after a service that ended in the middle of a call: all calls may be repeated.</summary>
    private const int Attempts = 3;

    private readonly GrpcChannel _channel;
    private readonly ServerAddress? _named;
    private readonly TimeSpan? _timeout;
    private readonly CancellationToken _cancel;

    /// <param name="named">The service to ask; null: this user's own, started where it does not run.</param>
    /// <param name="timeout">How long one answer may take.</param>
    /// <param name="cancel">Stops the call, here and in the service.</param>
    public ServiceConnection(ServerAddress? named, TimeSpan? timeout, CancellationToken cancel)
    {
        (_named, _timeout, _cancel) = (named, timeout, cancel);
        var handler = new SocketsHttpHandler { UseProxy = false };
        if (named?.Uri is null)
        {
            // A socket has no host: the address names one that no request goes to.
            Func<CancellationToken, ValueTask<Stream>> connect = named is null ? new LocalService(ServicePlace.OfThisUser()).ConnectAsync : ConnectToNamedSocket;
            handler.ConnectCallback = (_, connectCancel) => connect(connectCancel);
        }
        else
        {
            handler.ConnectTimeout = TimeSpan.FromSeconds(10);
        }
        _channel = GrpcChannel.ForAddress(named?.Uri ?? new Uri("http://localhost"), new GrpcChannelOptions
        {
            HttpHandler = AccessKey.OfThisUser is { } key && named?.Uri is { } uri ? AccessKey.Sent(key, uri, handler) : handler,
            DisposeHttpClient = true,
            MaxReceiveMessageSize = LargestAnswer,
            MaxSendMessageSize = null,
        });
        Mixing = new Mixing.MixingClient(_channel);
        Shelves = new Shelves.ShelvesClient(_channel);
        Schemes = new Schemes.SchemesClient(_channel);
        Layering = new Layering.LayeringClient(_channel);
        Swatches = new Swatches.SwatchesClient(_channel);
    }

    public Mixing.MixingClient Mixing { get; }

    public Shelves.ShelvesClient Shelves { get; }

    public Schemes.SchemesClient Schemes { get; }

    public Layering.LayeringClient Layering { get; }

    /// <summary>How a stream is asked for: until when, and what stops it.</summary>
    public CallOptions Options => new(deadline: _timeout is { } timeout ? DateTime.UtcNow + timeout : null, cancellationToken: _cancel);

    public Swatches.SwatchesClient Swatches { get; }

    /// <summary>Asks, and where the local service ended meanwhile starts it and asks again.</summary>
    /// <exception cref="NoService">Nobody answers.</exception>
    /// <exception cref="RpcException">The service's own refusal.</exception>
    public Task<TAnswer> AskAsync<TAnswer>(Func<CallOptions, AsyncUnaryCall<TAnswer>> call) =>
        AskAsync(async options => await call(options));

    /// <summary>The same for a question that is answered in a stream, which <paramref name="call"/> reads to its end.</summary>
    public async Task<TAnswer> AskAsync<TAnswer>(Func<CallOptions, Task<TAnswer>> call)
    {
        // The time to spend is one for all attempts, and does not change where the computer's clock is set between them.
        long start = Stopwatch.GetTimestamp();
        for (int attempt = 1; ; attempt++)
        {
            try
            {
                DateTime? deadline = _timeout is { } timeout ? DateTime.UtcNow + timeout - Stopwatch.GetElapsedTime(start) : null;
                return await call(new CallOptions(deadline: deadline, cancellationToken: _cancel));
            }
            catch (RpcException e) when (Causes(e).OfType<NoService>().FirstOrDefault() is { } reason)
            {
                throw reason;
            }
            catch (RpcException e) when (IsLostConnection(e))
            {
                if (_named is null && attempt < Attempts)
                {
                    continue;
                }
                throw await WhyNobodyAnswersAsync(e);
            }
            catch (RpcException e) when (e.StatusCode == StatusCode.Unimplemented && _named?.Uri is { } uri)
            {
                throw await PlainHttpProbe.SpeaksHttp1Async(uri, _cancel) ? WrongPort(_named, e) : e;
            }
        }
    }

    public void Dispose() => _channel.Dispose();

    private async ValueTask<Stream> ConnectToNamedSocket(CancellationToken cancel) =>
        await LocalService.TryConnectAsync(_named!.SocketPath!, cancel)
        ?? throw new NoService($"No service listens at {_named.Text}. Start one there (mixengine serve --socket {_named.SocketPath}), "
            + "or leave --server out: your own local service is then started by itself.");

    /// <summary>Whether the failure is the transport's, not an answer of the service.</summary>
    private static bool IsLostConnection(RpcException e) =>
        e.StatusCode is StatusCode.Unavailable or StatusCode.Internal && e.Status.DebugException is not null;

    private static IEnumerable<Exception> Causes(RpcException e)
    {
        for (Exception? cause = e.Status.DebugException ?? e.InnerException; cause is not null; cause = cause.InnerException)
        {
            yield return cause;
        }
    }

    private static NoService WrongPort(ServerAddress named, RpcException e) => new(
        $"{named.Text} speaks HTTP/1.1: it is the port for curl, scripts and spreadsheets (HTTP/JSON). This command speaks gRPC, which needs HTTP/2.\n"
        + "Give --server the port that the service was given with --grpc (mixengine serve prints it), or leave --server out for your own local service.", e);

    private async Task<NoService> WhyNobodyAnswersAsync(RpcException e)
    {
        string reason = Causes(e).LastOrDefault()?.Message ?? e.Status.Detail;
        if (_named?.Uri is not { } uri)
        {
            return new NoService($"The connection to the service broke: {reason}\nAsk again; if it stays so, see {ServicePlace.OfThisUser().Log}.", e);
        }
        return await PlainHttpProbe.SpeaksHttp1Async(uri, _cancel)
            ? WrongPort(_named, e)
            : new NoService($"No service answers at {_named.Text}: {reason}\n"
                + $"See whether the address is right and a service listens there (mixengine serve --grpc {uri.Authority}), "
                + "or leave --server out for your own local service.", e);
    }
}
