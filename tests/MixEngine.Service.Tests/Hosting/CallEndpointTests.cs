using Grpc.AspNetCore.Server;
using MixEngine.Service.Telemetry;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Hosting;

/// <summary>What is done with the requests of calls alone is done with those of all calls.</summary>
public sealed class CallEndpointTests(TestService service) : IClassFixture<TestService>
{
    [Fact]
    public void Every_call_has_its_name_and_with_it_the_limits_and_words_of_calls()
    {
        var calls = service.Endpoints.Where(endpoint => endpoint.Metadata.GetMetadata<GrpcMethodMetadata>() is not null).ToArray();
        Assert.Empty(calls.Where(call => call.Metadata.GetMetadata<RpcName>() is null).Select(call => call.DisplayName));
        var names = calls.Select(call => call.Metadata.GetMetadata<RpcName>()!.Text).ToHashSet();
        var contract = MixingReflection.Descriptor.Services.Single().Methods.Select(method => $"{method.Service.FullName}/{method.Name}");
        Assert.Superset(contract.ToHashSet(), names);
        Assert.Contains("grpc.health.v1.Health/Check", names);
        Assert.Contains("grpc.reflection.v1.ServerReflection/ServerReflectionInfo", names);
    }
}
