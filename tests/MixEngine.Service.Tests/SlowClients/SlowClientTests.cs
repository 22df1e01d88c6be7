using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;
using Google.Protobuf;
using Grpc.Core;
using Grpc.Health.V1;
using Grpc.Net.Client;
using Microsoft.Data.Sqlite;
using MixEngine.Service.Tests.Hosting;
using MixEngine.V1;

namespace MixEngine.Service.Tests.SlowClients;

/// <summary>
/// Clients that ask without end and read no answer: the service stops reading them, keeps few answers waiting, and answers others.
/// MIXENGINE_SLOW_SECONDS says for how long it is watched after they came to a stand (0 where it is not set); the figures stand in RESULTS.md.
/// </summary>
public sealed partial class SlowClientTests(ITestOutputHelper output) : IDisposable
{
    private const int Clients = 20;
    private const int Items = 20_000;

    // For each client: the service's two queues, what its writer has in hand, and what the windows of HTTP/2 hold of answers of ten kilobytes.
    private const int MostAnswersWaiting = 100;

    // For each client at most: a window of requests (768 kB), the items and answers above, and room for the collector to be lazy.
    private const long MostGrowth = Clients * 10L << 20;

    private readonly TemporaryFolder _folder = new();

    private static int Seconds => int.TryParse(Environment.GetEnvironmentVariable("MIXENGINE_SLOW_SECONDS"), CultureInfo.InvariantCulture, out var seconds) ? seconds : 0;

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Clients_that_never_read_are_not_read_either_and_hold_nobody_up()
    {
        using var service = await ServiceProcess.StartReadyAsync(_folder);
        using var other = UnixChannel.To(_folder.Socket);
        await new V1.Shelves.ShelvesClient(other).ImportShelfAsync(new ImportShelfRequest { FileName = "coast.csv", Content = ByteString.CopyFromUtf8(Coast.Table) });
        await FinishAsync(other, "before", 200);
        var before = Memory(service);

        var channels = Enumerable.Range(0, Clients).Select(_ => UnixChannel.To(_folder.Socket)).ToArray();
        using var end = new CancellationTokenSource();
        var sent = new int[Clients];
        var sending = channels.Select((channel, client) => SendAsync(channel, client, () => sent[client]++, end.Token)).ToArray();
        await AtAStandAsync(sent, sending);
        for (var second = 0; second <= Seconds; second++)
        {
            var (memory, waiting) = (Memory(service), AnswersWaiting());
            if (second % 10 == 0)
            {
                output.WriteLine($"{second} s: {memory >> 20} MB, before {before >> 20} MB; {sent.Sum()} items sent, {waiting.Sum()} answered, at most {waiting.Max()} for one client");
            }

            Assert.Equal(Clients, waiting.Count);
            Assert.All(waiting, answers => Assert.InRange(answers, 1, MostAnswersWaiting));
            Assert.True(memory - before < MostGrowth, $"{before >> 20} MB became {memory >> 20} MB.");
            await Task.Delay(second < Seconds ? 1000 : 0, TestContext.Current.CancellationToken);
        }

        // Others are answered, whether they ask one thing or many.
        Assert.Equal(HealthCheckResponse.Types.ServingStatus.Serving, (await new Health.HealthClient(other).CheckAsync(new HealthCheckRequest { Service = "ready" })).Status);
        await FinishAsync(other, "meanwhile", 200);
        Assert.All(sending, one => Assert.False(one.IsCompleted));

        // When they go, so does what was held for them; what was answered is there for whoever opens the batch again.
        await end.CancelAsync();
        await Task.WhenAll(sending).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing | ConfigureAwaitOptions.ContinueOnCapturedContext);
        Array.ForEach(channels, channel => channel.Dispose());
        await using var again = await BatchTests.Stream.OpenAsync(new Batch.BatchClient(other), "slow-0", "home");
        Assert.InRange(again.Opened.Kept, 1, MostAnswersWaiting);
        service.Terminate();
        Assert.Equal(0, (await service.EndAsync()).ExitCode);
    }

    private static async Task SendAsync(GrpcChannel channel, int client, Action sent, CancellationToken cancel)
    {
        using var call = new Batch.BatchClient(channel).Solve(cancellationToken: cancel);
        await call.RequestStream.WriteAsync(new SolveRequest { Open = new OpenBatch { Batch = $"slow-{client}", Shelf = "home" } }, cancel);
        for (var i = 0; i < Items; i++)
        {
            await call.RequestStream.WriteAsync(new SolveRequest { Item = Item(i) }, cancel);
            sent();
        }
    }

    // A kilobyte to ask, ten to answer.
    internal static BatchItem Item(int i) => new()
    {
        Key = FormattableString.Invariant($"{i:000000}"),
        Glaze = new GlazeRequest
        {
            Recipe = BatchTests.Text("tide pool" + new string(' ', 1000)), MediumParts = 6, Coats = 30, Over = new Surface { Primer = "grey" }, View = new View { WithReflectance = true },
        },
    };

    // Another half second, and another, has brought nothing more.
    private static async Task AtAStandAsync(int[] sent, Task[] sending)
    {
        var start = Stopwatch.GetTimestamp();
        for (var (still, last) = (0, 0); still < 4 || last == 0;)
        {
            await Task.Delay(500, TestContext.Current.CancellationToken);
            Assert.True(Stopwatch.GetElapsedTime(start) < Waiting.Patience, "Clients that read nothing are still read.");
            Assert.All(sending, one => Assert.False(one.IsCompleted, "All was read of a client that reads nothing."));
            var now = sent.Sum();
            (still, last) = (now == last ? still + 1 : 0, now);
        }
    }

    private static async Task FinishAsync(ChannelBase channel, string name, int items)
    {
        await using var batch = await BatchTests.Stream.OpenAsync(new Batch.BatchClient(channel), name, "home");
        var reading = batch.ReadToEndAsync();
        await batch.SendAsync([.. Enumerable.Range(0, items).Select(Item)]);
        await batch.CloseAsync();
        Assert.All(await reading, answer => Assert.Equal(30, answer.Glaze.Coats.Count));
    }

    // What the service holds of answers that nobody has read, seen behind its back.
    private List<long> AnswersWaiting()
    {
        using var connection = new SqliteConnection($"Data Source={Path.Combine(_folder.Data, "mixengine.db")};Mode=ReadOnly");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT count(*) FROM batch_answer WHERE batch_id LIKE 'slow-%' GROUP BY batch_id";
        using var rows = command.ExecuteReader();
        var counts = new List<long>();
        while (rows.Read())
        {
            counts.Add(rows.GetInt64(0));
        }

        return counts;
    }

    private static long Memory(ServiceProcess service) =>
        long.Parse(Resident().Match(File.ReadAllText($"/proc/{service.Id}/status")).Groups[1].ValueSpan, CultureInfo.InvariantCulture) << 10;

    [GeneratedRegex(@"VmRSS:\s+(\d+) kB")]
    private static partial Regex Resident();
}
