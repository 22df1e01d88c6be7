using Grpc.Core;
using MixEngine.Service.Options;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Hosting;

/// <summary>A service that is asked to end finishes what it can in its time, and hands the rest back.</summary>
public sealed class DrainTests
{
    [Fact]
    public async Task What_is_under_way_is_finished()
    {
        await using var service = await Service(seconds: 60);
        service.Import("large", Coast.Large(300));
        var call = new Layering.LayeringClient(service.Channel).GlazeToAsync(Glazes(layers: 4), deadline: DateTime.UtcNow.AddHours(1));
        await Underway(service, call.ResponseAsync);
        await service.EndAsync();
        Assert.NotEmpty((await call).Glazes);
    }

    [Fact]
    public async Task What_takes_longer_than_the_time_is_handed_back()
    {
        await using var service = await Service(seconds: 0.2);
        service.Import("large", Coast.Large(300));
        var call = new Layering.LayeringClient(service.Channel).GlazeToAsync(Glazes(layers: 64), deadline: DateTime.UtcNow.AddHours(1));
        await Underway(service, call.ResponseAsync);
        await service.EndAsync();
        var handed = await Assert.ThrowsAsync<RpcException>(() => call.ResponseAsync);
        Assert.Equal(StatusCode.Unavailable, handed.StatusCode);
        Assert.Contains("hands this call back unanswered. Ask again", handed.Status.Detail);
    }

    [Fact]
    public async Task A_batch_is_handed_back_and_goes_on_elsewhere_without_loss()
    {
        using var folder = new TemporaryFolder();
        var items = Enumerable.Range(0, 600).Select(BatchTests.Item).ToArray();
        var answers = new Dictionary<string, BatchAnswer>();
        using (var service = await ServiceProcess.StartReadyAsync(folder))
        {
            using var channel = UnixChannel.To(folder.Socket);
            await new V1.Shelves.ShelvesClient(channel).ImportShelfAsync(new ImportShelfRequest { FileName = "coast.csv", Content = Google.Protobuf.ByteString.CopyFromUtf8(Coast.Table) });
            var handed = await Assert.ThrowsAsync<RpcException>(() => RunAsync(channel, items, answer =>
            {
                answers.Add(answer.Key, answer);
                if (answers.Count == 100)
                {
                    service.Terminate();
                }
            }));
            Assert.Equal(StatusCode.Unavailable, handed.StatusCode);
            Assert.Contains("Open the batch again", handed.Status.Detail);
            Assert.Equal(0, (await service.EndAsync()).ExitCode);
        }

        Assert.InRange(answers.Count, 100, items.Length - 1);
        using (var service = await ServiceProcess.StartReadyAsync(folder))
        {
            using var channel = UnixChannel.To(folder.Socket);
            var again = new Dictionary<string, BatchAnswer>();
            await RunAsync(channel, items, answer => again.Add(answer.Key, answer));
            Assert.Equal(items.Select(item => item.Key).Order(), again.Keys.Order());
            Assert.All(answers.Keys, key => Assert.True(again[key].Kept, $"{key} was solved again."));
        }
    }

    [Fact]
    public async Task An_idle_batch_does_not_hold_the_end_up()
    {
        await using var service = await Service(seconds: 600);
        await using var batch = await BatchTests.Stream.OpenAsync(new Batch.BatchClient(service.Channel), "idle", "home");
        var reading = Assert.ThrowsAsync<RpcException>(batch.ReadToEndAsync);
        await service.EndAsync();
        var handed = await reading;
        Assert.True(handed.StatusCode == StatusCode.Unavailable, handed.ToString());
    }

    // Every paint of the shelf in two dozen let-downs and a hundred coats, over each of so many layers: a second or so for four, more than anybody waits for sixty-four.
    private static GlazeToRequest Glazes(int layers)
    {
        var request = new GlazeToRequest { Shelf = "large", Target = new ColorInput { Text = "#5a6b3c" }, Coats = 100, MediumParts = { Enumerable.Range(0, 24).Select(parts => (double)parts) } };
        request.Over.Add(Enumerable.Range(0, layers).Select(layer => new Surface { Recipe = new RecipeInput { Text = FormattableString.Invariant($"pebble {layer:000}") } }));
        return request;
    }

    private static async Task<TestService> Service(double seconds)
    {
        var service = new TestService { Options = options => options with { Drain = new DrainOptions { Seconds = seconds } } };
        await service.InitializeAsync();
        return service;
    }

    private static async Task Underway(TestService service, Task answer)
    {
        await Waiting.UntilAsync(() => service.Requests.Count > 0 || answer.IsCompleted, "Nothing is asked.");
        await Task.Delay(50);
        Assert.False(answer.IsCompleted, "It was answered before the service could be asked to end.");
    }

    private static async Task RunAsync(ChannelBase channel, BatchItem[] items, Action<BatchAnswer> seen)
    {
        await using var batch = await BatchTests.Stream.OpenAsync(new Batch.BatchClient(channel), "drained", "home");
        var sending = Task.Run(async () =>
        {
            try
            {
                await batch.SendAsync(items);
                await batch.CloseAsync();
            }
            catch (RpcException)
            {
                // The reader is told why.
            }
        });
        await batch.ReadEachAsync(seen);
        await sending;
    }
}
