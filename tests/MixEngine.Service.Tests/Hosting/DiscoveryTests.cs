using Grpc.Health.V1;
using Grpc.Reflection.V1Alpha;

namespace MixEngine.Service.Tests.Hosting;

/// <summary>What a general gRPC client needs to explore the service.</summary>
public sealed class DiscoveryTests(TestService service) : IClassFixture<TestService>
{
    [Fact]
    public async Task The_service_says_that_it_is_well()
    {
        var answer = await new Health.HealthClient(service.Channel).CheckAsync(new HealthCheckRequest(), cancellationToken: TestContext.Current.CancellationToken);
        Assert.Equal(HealthCheckResponse.Types.ServingStatus.Serving, answer.Status);
    }

    [Fact]
    public async Task The_service_describes_its_calls()
    {
        using var call = new ServerReflection.ServerReflectionClient(service.Channel).ServerReflectionInfo(cancellationToken: TestContext.Current.CancellationToken);
        await call.RequestStream.WriteAsync(new ServerReflectionRequest { ListServices = "" });
        await call.RequestStream.CompleteAsync();
        Assert.True(await call.ResponseStream.MoveNext(TestContext.Current.CancellationToken));
        var names = call.ResponseStream.Current.ListServicesResponse.Service.Select(description => description.Name);
        Assert.Superset(new HashSet<string> { "mixengine.v1.Mixing", "mixengine.v1.Shelves", "grpc.health.v1.Health" }, names.ToHashSet());
    }
}
