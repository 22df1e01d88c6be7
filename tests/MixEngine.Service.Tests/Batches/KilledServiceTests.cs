using Google.Protobuf;
using Grpc.Core;
using MixEngine.Service.Tests.Hosting;
using MixEngine.V1;

namespace MixEngine.Service.Tests;

/// <summary>The bar: a service killed in the middle of a batch of 2,000 items and started again loses and repeats nothing.</summary>
public class KilledServiceTests
{
    private const int Items = 2000;

    [Fact]
    public async Task A_killed_service_started_again_loses_and_repeats_nothing()
    {
        using var folder = new TemporaryFolder();
        var items = Enumerable.Range(0, Items).Select(BatchTests.Item).ToArray();
        var answers = new Dictionary<string, BatchAnswer>();

        // Killed, without warning, when about half of it has been seen.
        using (var service = await ServiceProcess.StartReadyAsync(folder))
        {
            using var channel = UnixChannel.To(folder.Socket);
            await new V1.Shelves.ShelvesClient(channel).ImportShelfAsync(
                new ImportShelfRequest { Shelf = "home", FileName = "coast.csv", Content = ByteString.CopyFromUtf8(Coast.Table) }, cancellationToken: TestContext.Current.CancellationToken);
            await Assert.ThrowsAnyAsync<RpcException>(() => RunAsync(channel, items, answer =>
            {
                Assert.False(answer.Kept);
                Assert.True(answers.TryAdd(answer.Key, answer), $"{answer.Key} came twice.");
                if (answers.Count == Items / 2)
                {
                    service.Kill();
                }
            }));
            await service.EndAsync();
        }

        Assert.InRange(answers.Count, Items / 2, Items - 1);

        // Started again: all that was seen is sent again as it was, without being solved again; the rest is solved.
        using (var service = await ServiceProcess.StartReadyAsync(folder))
        {
            using var channel = UnixChannel.To(folder.Socket);
            var again = new Dictionary<string, BatchAnswer>();
            await RunAsync(channel, items, answer => Assert.True(again.TryAdd(answer.Key, answer), $"{answer.Key} came twice."));
            Assert.Equal(Items, again.Count);
            Assert.All(answers.Values, before =>
            {
                var now = again[before.Key].Clone();
                Assert.True(now.Kept, $"{before.Key} was solved again.");
                now.Kept = false;
                Assert.Equal(before, now);
            });
            service.Terminate();
            await service.EndAsync();
        }
    }

    private static async Task RunAsync(ChannelBase channel, BatchItem[] items, Action<BatchAnswer> seen)
    {
        await using var batch = await BatchTests.Stream.OpenAsync(new Batch.BatchClient(channel), "killed", "home");
        var sending = Task.Run(async () =>
        {
            await batch.SendAsync(items);
            await batch.CloseAsync();
        });
        await batch.ReadEachAsync(seen);
        await sending;
    }
}
