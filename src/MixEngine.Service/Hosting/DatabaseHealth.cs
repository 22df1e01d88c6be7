using Microsoft.Extensions.Diagnostics.HealthChecks;
using MixEngine.Storage;

namespace MixEngine.Service.Hosting;

/// <summary>The service is well when its database answers.</summary>
internal sealed class DatabaseHealth(Database database) : IHealthCheck
{
    public Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default)
    {
        database.Ask();
        return Task.FromResult(HealthCheckResult.Healthy());
    }
}
