using System.Diagnostics;
using System.Globalization;
using Google.Protobuf;
using Grpc.Core;
using MixEngine.V1;

namespace MixEngine.Client.Tests;

/// <summary>What the library does around the generated calls, against the real service.</summary>
public class ClientTests
{
    private const int Items = 240;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_batch_outlives_a_killed_service_and_answers_each_item_once()
    {
        using var service = new RunningService();
        using var channel = ServiceChannel.To("http://" + service.Grpc);
        await ImportAsync(channel);
        var (seen, broken) = (new HashSet<string>(), 0);
        var batch = new Batch.BatchClient(channel).SolveAllAsync(
            new OpenBatch { Batch = "outlives", Shelf = "home" },
            Enumerable.Range(0, Items).Select(Item),
            new BatchOptions { Streams = 3, OnBroken = _ => Interlocked.Increment(ref broken) },
            Cancel);
        await foreach (var answer in batch)
        {
            Assert.True(seen.Add(answer.Key), $"{answer.Key} came twice.");
            Assert.Null(answer.Error);
            if (seen.Count == Items / 3)
            {
                service.Kill();
                service.Start();
            }
        }

        Assert.Equal(Items, seen.Count);
        Assert.True(broken > 0, "Nothing broke.");
    }

    [Fact]
    public async Task A_batch_begun_again_by_another_program_solves_nothing_again()
    {
        using var service = new RunningService();
        using var channel = ServiceChannel.To("unix:" + service.SocketPath);
        await ImportAsync(channel);
        var client = new Batch.BatchClient(channel);
        var open = new OpenBatch { Batch = "again", Shelf = "home" };
        var items = Enumerable.Range(0, 40).Select(Item).ToArray();

        // The first takes ten answers and is gone; more were finished by then.
        var taken = await client.SolveAllAsync(open, items, cancel: Cancel).Take(10).ToDictionaryAsync(answer => answer.Key, cancellationToken: Cancel);
        var rest = await client.SolveAllAsync(open, items.Where(item => !taken.ContainsKey(item.Key)), cancel: Cancel).ToDictionaryAsync(answer => answer.Key, cancellationToken: Cancel);
        Assert.Equal(items.Select(item => item.Key).Order(), taken.Keys.Union(rest.Keys).Order());
        Assert.All(rest.Values, answer => Assert.Null(answer.Error));
        foreach (var (key, answer) in rest.Where(pair => taken.ContainsKey(pair.Key)))
        {
            Assert.True(answer.Kept, $"{key} was solved again.");
            Assert.Equal(taken[key].Match, answer.Match);
        }
    }

    [Fact]
    public async Task A_refused_batch_fails_with_the_services_words()
    {
        using var service = new RunningService();
        using var channel = ServiceChannel.To("http://" + service.Grpc);
        await ImportAsync(channel);
        var refusal = await Assert.ThrowsAsync<RpcException>(async () =>
            await new Batch.BatchClient(channel).SolveAllAsync(new OpenBatch { Batch = "no id", Shelf = "home" }, [Item(0)], cancel: Cancel).ToListAsync(Cancel));
        Assert.Equal(StatusCode.InvalidArgument, refusal.StatusCode);
        Assert.Contains("no id", refusal.Status.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_call_that_may_be_repeated_is_tried_again_and_one_that_may_not_fails_at_once()
    {
        // The listener hears all of the process; only what this test asks has its trace.
        using var own = new Activity("repeated").Start();
        var tries = new Dictionary<string, int> { ["RemovePaint"] = 0, ["Predict"] = 0 };
        using var requests = new ActivityListener
        {
            ShouldListenTo = source => source.Name == "System.Net.Http",
            Sample = (ref ActivityCreationOptions<ActivityContext> _) => ActivitySamplingResult.AllData,
            ActivityStopped = activity =>
            {
                if (activity.TraceId == own.TraceId && activity.GetTagItem("url.full") is string url && tries.ContainsKey(url.Split('/')[^1]))
                {
                    tries[url.Split('/')[^1]]++;
                }
            },
        };
        ActivitySource.AddActivityListener(requests);

        // Nobody listens at that socket.
        using var channel = ServiceChannel.To($"unix:{Path.Combine(Path.GetTempPath(), Guid.NewGuid().ToString("N"))}");
        var removing = await Assert.ThrowsAsync<RpcException>(async () => await new Shelves.ShelvesClient(channel).RemovePaintAsync(new RemovePaintRequest { Paint = "kelp" }, cancellationToken: Cancel));
        var asking = await Assert.ThrowsAsync<RpcException>(async () => await new Mixing.MixingClient(channel).PredictAsync(new PredictRequest { Recipe = new RecipeInput { Text = "kelp" } }, cancellationToken: Cancel));
        Assert.Equal((StatusCode.Unavailable, StatusCode.Unavailable), (removing.StatusCode, asking.StatusCode));
        Assert.Equal((1, 5), (tries["RemovePaint"], tries["Predict"]));
    }

    [Fact]
    public async Task Pages_are_asked_to_the_end()
    {
        using var service = new RunningService();
        using var channel = ServiceChannel.To("http://" + service.Grpc);
        await ImportAsync(channel);
        var client = new Swatches.SwatchesClient(channel);
        for (var i = 0; i < 5; i++)
        {
            await client.AddSwatchAsync(SwatchOf(i), cancellationToken: Cancel);
        }

        var all = await client.ListAllAsync(new ListSwatchesRequest { PageSize = 2 }, Cancel).ToListAsync(Cancel);
        Assert.Equal(5, all.Select(fit => fit.Swatch.Id).Distinct().Count());
    }

    [Theory]
    [InlineData("http://mixing.example:7401", "key", "not encrypted")]
    [InlineData("mixing.example:7401", null, "no address")]
    public void An_address_that_would_not_do_is_refused(string address, string? key, string words) =>
        Assert.Contains(words, Assert.Throws<ArgumentException>(() => ServiceChannel.To(address, key)).Message, StringComparison.Ordinal);

    internal static async Task ImportAsync(ChannelBase channel)
    {
        var content = ByteString.CopyFrom(await File.ReadAllBytesAsync(Path.Combine(MixEngine.Contracts.Tests.Repository.Root, "clients", "samples", "coast.csv"), Cancel));
        await new Shelves.ShelvesClient(channel).ImportShelfAsync(new ImportShelfRequest { Shelf = "home", FileName = "coast.csv", Content = content }, cancellationToken: Cancel);
    }

    private static BatchItem Item(int index) => new()
    {
        Key = index.ToString(CultureInfo.InvariantCulture),
        Match = new MatchRequest { Target = new ColorInput { Text = FormattableString.Invariant($"#{40 + index * 73 % 190:x2}{35 + index * 151 % 180:x2}{25 + index * 197 % 170:x2}") } },
    };

    private static AddSwatchRequest SwatchOf(int index) => new()
    {
        Swatch = new Swatch { Recipe = new RecipeInput { Text = FormattableString.Invariant($"{index + 1} kelp + 1 chalk cliff") }, Color = new ColorInput { Text = "#9aa58c" }, Source = "instrument" },
    };
}
