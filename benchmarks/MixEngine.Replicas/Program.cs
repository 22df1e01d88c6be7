// Three replicas on one PostgreSQL behind gRPC's own client-side load balancing; one is killed in the middle of a batch, one drained, the database restarted.
// Nothing may be lost, nothing answered twice, and no single call may fail. Ends with 1 where something did.
using System.Diagnostics;
using System.Globalization;
using Google.Protobuf;
using Grpc.Core;
using MixEngine.Client;
using MixEngine.Replicas;
using MixEngine.V1;

CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
const int Items = 2000, KillAt = 500, DrainAt = 1000, RestartAt = 1400;

// Invented paints.
const string Coast = """
    name,hex,opacity
    tarred rope,#2b2320,opaque
    kelp,#3f4a2b,semi-opaque
    sea lettuce,#6f9a4e,semi-transparent
    tide pool,#2f6f78,transparent
    buoy yellow,#e8b21a,semi-transparent
    chalk cliff,#f2efe6,opaque
    old anchor,#7a3b22,semi-opaque
    """;

using var database = new Postgres();
Replica[] replicas = [new(database.ConnectionString), new(database.ConnectionString), new(database.ConnectionString)];
var faults = new List<string>();

// What the retry policy does is below the calls: it shows as requests beyond them.
var sent = 0;
using var requests = new ActivityListener
{
    ShouldListenTo = source => source.Name == "System.Net.Http",
    Sample = (ref ActivityCreationOptions<ActivityContext> _) => ActivitySamplingResult.AllData,
    ActivityStopped = activity => sent += activity.GetTagItem("url.full") is string url && url.EndsWith("/Predict", StringComparison.Ordinal) ? 1 : 0,
};
ActivitySource.AddActivityListener(requests);

using var channel = ServiceChannel.To([.. replicas.Select(replica => replica.Address)]);
var shelves = new Shelves.ShelvesClient(channel);
var ready = Stopwatch.StartNew();
while (true)
{
    try
    {
        await shelves.ListShelvesAsync(new ListShelvesRequest());
        break;
    }
    catch (RpcException fault) when (fault.StatusCode == StatusCode.Unavailable && ready.Elapsed < TimeSpan.FromSeconds(60))
    {
        await Task.Delay(100);
    }
}

await shelves.ImportShelfAsync(new ImportShelfRequest { Shelf = "home", FileName = "coast.csv", Content = ByteString.CopyFromUtf8(Coast) });
await Task.Delay(2000);

// Beside the batch somebody asks single questions all the time.
using var over = new CancellationTokenSource();
var (calls, failed, slowest) = (0, 0, TimeSpan.Zero);
var asking = Task.Run(async () =>
{
    var mixing = new Mixing.MixingClient(channel);
    while (!over.IsCancellationRequested)
    {
        calls++;
        var one = Stopwatch.StartNew();
        try
        {
            await mixing.PredictAsync(new PredictRequest { Shelf = "home", Recipe = new RecipeInput { Text = "2 kelp + 1 chalk cliff" } }, deadline: DateTime.UtcNow.AddSeconds(30));
        }
        catch (RpcException fault)
        {
            failed++;
            Console.WriteLine($"a single call failed: {fault.Status}");
        }

        slowest = one.Elapsed > slowest ? one.Elapsed : slowest;
        await Task.Delay(20);
    }
});

var (answers, kept, broken) = (new Dictionary<string, BatchAnswer>(), 0, 0);
var clock = Stopwatch.StartNew();
void Tell(string what) => Console.WriteLine($"{clock.Elapsed.TotalSeconds,6:0.0} s  {answers.Count,4} answered  {what}");
Task Disturb(string what, Action how) => Task.Run(() => { Tell(what); how(); });

var disturbing = new List<Task>();
await foreach (var answer in new Batch.BatchClient(channel).SolveAllAsync(
    new OpenBatch { Batch = "replicas", Shelf = "home" },
    Enumerable.Range(0, Items).Select(Item),
    new BatchOptions { Streams = 3, OnBroken = fault => { Interlocked.Increment(ref broken); Tell($"a stream broke: {fault.StatusCode}"); } }))
{
    if (!answers.TryAdd(answer.Key, answer))
    {
        faults.Add($"{answer.Key} was answered twice");
    }

    if (answer.Error is { } error)
    {
        faults.Add($"{answer.Key} was refused: {error.Message}");
    }

    kept += answer.Kept ? 1 : 0;
    switch (answers.Count)
    {
        case KillAt:
            disturbing.Add(Disturb("SIGKILL to the first replica", replicas[0].Kill));
            break;
        case DrainAt:
            disturbing.Add(Disturb("SIGTERM to the second replica", replicas[1].Drain));
            break;
        case RestartAt:
            disturbing.Add(Disturb("the database is restarted", database.Restart));
            break;
    }
}

await Task.WhenAll(disturbing);
Tell("done");
var seconds = clock.Elapsed.TotalSeconds;
await Task.Delay(500);
await over.CancelAsync();
await asking;
var drained = await replicas[1].EndAsync();

// What is stored is what was answered, once each; and asked alone it is the same.
var stored = database.Ask("SELECT count(*) || ' ' || count(DISTINCT item_key) FROM batch_answer");
Expect(answers.Count == Items, $"{Items - answers.Count} items were lost");
Expect(stored == $"{Items} {Items}", $"{stored} answers and keys are stored");
Expect(failed == 0, $"{failed} single calls failed");
Expect(disturbing.Count == 3 && broken > 0, "nothing was disturbed");
Expect(drained == 0, $"the drained replica ended with {drained}");
foreach (var index in Enumerable.Range(0, 40).Select(i => i * 49))
{
    var item = Item(index);
    item.Match.Shelf = "home";
    var alone = await new Mixing.MixingClient(channel).MatchAsync(item.Match);
    Expect(alone.Matches.Select(match => match.Recipe).SequenceEqual(answers[item.Key].Match.Matches.Select(match => match.Recipe)), $"{item.Key} is answered differently alone");
}

Console.WriteLine($"""
    {Items} items, {answers.Count} answered, {faults.Count(fault => fault.EndsWith("twice", StringComparison.Ordinal))} twice, {stored.Split(' ')[0]} stored; {seconds:0.0} s, {Items / seconds:0} items/s on {Environment.ProcessorCount} cores
    streams that broke and were opened again: {broken}; answers that were kept from before and sent again: {kept}
    single calls beside it: {calls}, failed {failed}, sent again by the retry policy {sent - calls}, slowest {slowest.TotalSeconds:0.0} s
    """);
foreach (var fault in faults)
{
    Console.WriteLine($"FAULT: {fault}");
}

foreach (var replica in replicas)
{
    replica.Dispose();
}

return faults.Count == 0 ? 0 : 1;

void Expect(bool holds, string fault)
{
    if (!holds)
    {
        faults.Add(fault);
    }
}

static BatchItem Item(int index) => new()
{
    Key = $"target {index}",
    Match = new MatchRequest { Target = new ColorInput { Text = FormattableString.Invariant($"#{40 + index * 73 % 190:x2}{35 + index * 151 % 180:x2}{25 + index * 197 % 170:x2}") }, Drops = 12 },
};
