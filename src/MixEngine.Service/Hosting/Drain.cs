using MixEngine.Service.Options;

namespace MixEngine.Service.Hosting;

/// <summary>
/// How the service ends when it is asked to: first health checks hear of it, then nobody is let in any more and batches are handed back, and what is still
/// under way has a bounded time. Nothing is lost by it: who is handed back a call asks again, here or elsewhere.
/// </summary>
internal sealed class Drain(DrainOptions options, RequestsUnderWay requests, IHostApplicationLifetime lifetime, TimeProvider clock, ILogger<Drain> logger) : IHostedLifecycleService, IDisposable
{
    private readonly CancellationTokenSource _leaving = new();
    private readonly CancellationTokenSource _over = new(Timeout.InfiniteTimeSpan, clock);

    private volatile bool _begun;

    /// <summary>The longest that ending takes; a little is left for the last answers to arrive.</summary>
    public static TimeSpan LongestOf(DrainOptions options) => TimeSpan.FromSeconds(options.NoticeSeconds + options.Seconds + 5);

    /// <summary>Whether it was asked to end.</summary>
    public bool HasBegun => lifetime.ApplicationStopping.IsCancellationRequested || _begun;

    /// <summary>From now on nothing new is begun.</summary>
    public CancellationToken Leaving => _leaving.Token;

    /// <summary>From now on what is under way is handed back.</summary>
    public CancellationToken Over => _over.Token;

    /// <summary>Runs before anything stops.</summary>
    public async Task StoppingAsync(CancellationToken cancellationToken)
    {
        // The host is stopped by whoever asked first, and again by who disposes of it.
        if (_begun)
        {
            return;
        }

        _begun = true;
        Log.Ending(logger, requests.Count);
        if (options.NoticeSeconds > 0)
        {
            await Task.Delay(TimeSpan.FromSeconds(options.NoticeSeconds), clock, cancellationToken);
        }

        _over.CancelAfter(TimeSpan.FromSeconds(options.Seconds));
        await _leaving.CancelAsync();
    }

    public Task StartingAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StartedAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StoppedAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public void Dispose()
    {
        _leaving.Dispose();
        _over.Dispose();
    }
}
