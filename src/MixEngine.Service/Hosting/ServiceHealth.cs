using Microsoft.AspNetCore.Diagnostics.HealthChecks;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using MixEngine.Storage;

namespace MixEngine.Service.Hosting;

/// <summary>
/// Whether the service is alive, and whether it is ready for callers: its database answers, and it was not asked to end. As gRPC health for "live", "ready" and ""
/// (the same as ready), and over HTTP as /health/live and /health/ready. Whoever asks needs no access key.
/// </summary>
internal static class ServiceHealth
{
    private const string Live = "live", Ready = "ready";

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(2);
    private static readonly TimeSpan BetweenLooks = TimeSpan.FromSeconds(2);

    public static void Add(IServiceCollection services)
    {
        services
            .AddGrpcHealthChecks(health =>
            {
                health.Services.Map("live", check => check.Name == Live);
                health.Services.Map("ready", check => check.Name == Ready);
            })
            .AddCheck(Live, () => HealthCheckResult.Healthy())
            .AddCheck<Readiness>(Ready);

        // What watchers are told, and how soon.
        services.Configure<HealthCheckPublisherOptions>(publisher => (publisher.Delay, publisher.Period) = (TimeSpan.Zero, BetweenLooks));
    }

    /// <summary>Maps the checks; what is returned is the call of them.</summary>
    public static IEndpointConventionBuilder Map(WebApplication app)
    {
        app.MapHealthChecks("/health/live", new HealthCheckOptions { Predicate = check => check.Name == Live }).AllowAnonymous();
        app.MapHealthChecks("/health/ready", new HealthCheckOptions { Predicate = check => check.Name == Ready }).AllowAnonymous();
        return app.MapGrpcHealthChecksService().AllowAnonymous();
    }

    private sealed class Readiness(Database database, Drain drain) : IHealthCheck
    {
        public async Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default)
        {
            if (drain.HasBegun)
            {
                return HealthCheckResult.Unhealthy("The service is ending.");
            }

            try
            {
                await Task.Run(database.Ask, cancellationToken).WaitAsync(Patience, cancellationToken);
                return HealthCheckResult.Healthy();
            }
            catch (Exception fault) when (fault is not OperationCanceledException)
            {
                return HealthCheckResult.Unhealthy("The database does not answer.", fault);
            }
        }
    }
}
