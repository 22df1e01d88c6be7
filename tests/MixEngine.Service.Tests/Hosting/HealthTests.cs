using System.Net;
using Grpc.Core;
using Grpc.Health.V1;
using Grpc.Net.Client;
using MixEngine.Service.Options;
using MixEngine.V1;
using static Grpc.Health.V1.HealthCheckResponse.Types;

namespace MixEngine.Service.Tests.Hosting;

/// <summary>What a balancer or an orchestrator asks before it sends anybody.</summary>
public sealed class HealthTests : IAsyncLifetime
{
    private readonly TestService _service = new() { Options = options => options with { Drain = new DrainOptions { NoticeSeconds = 3, Seconds = 3 } } };

    public ValueTask InitializeAsync() => _service.InitializeAsync();

    public ValueTask DisposeAsync() => _service.DisposeAsync();

    [Theory]
    [InlineData("")]
    [InlineData("live")]
    [InlineData("ready")]
    public async Task A_service_whose_database_answers_is_live_and_ready(string name) => Assert.Equal(ServingStatus.Serving, await Status(_service.Channel, name));

    [Fact]
    public async Task Nobody_is_told_of_a_service_that_is_not_there() =>
        Assert.Equal(StatusCode.NotFound, (await Assert.ThrowsAsync<RpcException>(() => Status(_service.Channel, "raedy"))).StatusCode);

    [Fact]
    public async Task Without_its_database_it_is_live_and_not_ready()
    {
        _service.Sql("ALTER TABLE schema_version RENAME TO lost");
        Assert.Equal(ServingStatus.Serving, await Status(_service.Channel, "live"));
        Assert.Equal(ServingStatus.NotServing, await Status(_service.Channel, "ready"));
        Assert.Equal(HttpStatusCode.OK, (await _service.Http.GetAsync("/health/live")).StatusCode);
        Assert.Equal(HttpStatusCode.ServiceUnavailable, (await _service.Http.GetAsync("/health/ready")).StatusCode);
        _service.Sql("ALTER TABLE lost RENAME TO schema_version");
        Assert.Equal(HttpStatusCode.OK, (await _service.Http.GetAsync("/health/ready")).StatusCode);
    }

    [Fact]
    public async Task While_it_drains_it_is_not_ready_and_still_answers()
    {
        using var watch = new Health.HealthClient(_service.Channel).Watch(new HealthCheckRequest { Service = "ready" });
        Assert.True(await watch.ResponseStream.MoveNext(CancellationToken.None));
        var ending = _service.EndAsync();

        // A balancer connects anew for each look.
        using var balancer = GrpcChannel.ForAddress(_service.GrpcAddress);
        Assert.Equal(ServingStatus.NotServing, await Status(balancer, "ready"));
        Assert.Equal(ServingStatus.Serving, await Status(balancer, "live"));
        Assert.NotNull(await new Mixing.MixingClient(balancer).PredictAsync(new PredictRequest { Recipe = new RecipeInput { Text = "kelp" } }));

        // Who watches is told without asking.
        while (watch.ResponseStream.Current.Status != ServingStatus.NotServing)
        {
            Assert.True(await watch.ResponseStream.MoveNext(CancellationToken.None));
        }

        await ending;
    }

    private static async Task<ServingStatus> Status(ChannelBase channel, string name) =>
        (await new Health.HealthClient(channel).CheckAsync(new HealthCheckRequest { Service = name })).Status;
}
