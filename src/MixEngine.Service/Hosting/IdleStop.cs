using MixEngine.Service.Options;

namespace MixEngine.Service.Hosting;

/// <summary>Ends the service when nobody has asked it anything for long enough.</summary>
internal sealed class IdleStop(
    IdleOptions options, RequestsUnderWay requests, IHostApplicationLifetime lifetime, TimeProvider clock, ILogger<IdleStop> logger) : BackgroundService
{
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        var patience = TimeSpan.FromMinutes(options.Minutes);
        while (options.Minutes > 0)
        {
            // Sleep until patience could run out at the earliest.
            var left = patience - requests.QuietFor;
            if (left <= TimeSpan.Zero)
            {
                Log.EndingIdle(logger, options.Minutes);
                lifetime.StopApplication();
                return;
            }

            await Task.Delay(left, clock, stoppingToken);
        }
    }
}
