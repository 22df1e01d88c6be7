using Google.Protobuf;
using Grpc.Core;
using Grpc.Health.V1;
using MixEngine.Service.Tests.Hosting;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Computing;

/// <summary>Many searches at once, each of which would take minutes, on a service whose pool has few threads and gets no more.</summary>
public sealed class ManySearchesTests : IDisposable
{
    private const int Searches = 64;

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Others_are_answered_and_who_gives_up_is_heard()
    {
        using var service = ServiceProcess.StartBy("DOTNET_ThreadPool_ForceMaxWorkerThreads=6 exec \"$0\" \"$@\"", "--socket", _folder.Socket, "--data", _folder.Data);
        await ServiceProcess.AcceptingAsync(_folder.Socket);
        using var channel = UnixChannel.To(_folder.Socket);
        using var other = UnixChannel.To(_folder.Socket);
        var shelves = new V1.Shelves.ShelvesClient(channel);
        await shelves.ImportShelfAsync(new ImportShelfRequest { Shelf = "greys", FileName = "greys.csv", Content = ByteString.CopyFromUtf8(Coast.Greys()) }, deadline: Soon());
        await shelves.ImportShelfAsync(new ImportShelfRequest { Shelf = "home", FileName = "coast.csv", Content = ByteString.CopyFromUtf8(Coast.Table) }, deadline: Soon());

        // Derived once, so that what follows is searches alone.
        var mixing = new Mixing.MixingClient(channel);
        await mixing.PredictAsync(new PredictRequest { Shelf = "greys", Recipe = new RecipeInput { Text = "grey 000" } }, deadline: Soon());
        using var patience = new CancellationTokenSource();
        var searches = Enumerable.Range(0, Searches).Select(_ => mixing.MatchAsync(Long(), deadline: DateTime.UtcNow.AddHours(1), cancellationToken: patience.Token).ResponseAsync).ToArray();
        await Waiting.UntilAsync(() => service.Threads("search") >= Environment.ProcessorCount, "No search is begun.");
        for (var i = 0; i < 5; i++)
        {
            var health = await new Health.HealthClient(other).CheckAsync(new HealthCheckRequest { Service = "ready" }, deadline: Soon());
            Assert.Equal(HealthCheckResponse.Types.ServingStatus.Serving, health.Status);
            await new Mixing.MixingClient(other).PredictAsync(new PredictRequest { Recipe = new RecipeInput { Text = "2 tarred rope + 1 kelp" } }, deadline: Soon());
            await new Mixing.MixingClient(other).GlazeAsync(
                new GlazeRequest { Recipe = new RecipeInput { Text = "tide pool" }, MediumParts = 3, Coats = 2, Over = new Surface { Primer = "grey" } }, deadline: Soon());
        }

        Assert.All(searches, search => Assert.False(search.IsCompleted));

        // Those that wait are never begun, and those that are under way end: then a search of somebody else has its turn.
        await patience.CancelAsync();
        var given = await Task.WhenAll(searches.Select(search => Assert.ThrowsAsync<RpcException>(() => search)));
        Assert.All(given, fault => Assert.Equal(StatusCode.Cancelled, fault.StatusCode));
        var match = await new Mixing.MixingClient(other).MatchAsync(new MatchRequest { Target = new ColorInput { Text = "#5a6b3c" }, Paints = 2, Drops = 5 }, deadline: Soon());
        Assert.True(match.Proven);
        service.Terminate();
        Assert.Equal(0, (await service.EndAsync()).ExitCode);
    }

    private static DateTime Soon() => DateTime.UtcNow + Waiting.Patience;

    private static MatchRequest Long() => new()
    {
        Shelf = "greys", Target = new ColorInput { Text = "#7d7f80" }, Drops = 80, Tolerance = 0, Lights = { new MatchLight { Name = "D65" }, new MatchLight { Name = "A" }, new MatchLight { Name = "FL11" } },
    };
}
