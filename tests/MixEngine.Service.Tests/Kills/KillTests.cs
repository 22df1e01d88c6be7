using System.Globalization;
using Google.Protobuf;
using MixEngine.Service.Data;
using MixEngine.Service.Tests.Hosting;
using MixEngine.Storage;
using MixEngine.Storage.Tests;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Kills;

/// <summary>
/// The service is killed with SIGKILL in the middle of writing, again and again: what it acknowledged is there, and what it did not is wholly there or wholly absent.
/// MIXENGINE_KILLS says how often (2 where it is not set).
/// </summary>
public sealed class KillTests(PostgresServer server, ITestOutputHelper output) : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly Dictionary<string, Tally> _tallies = [];

    private static int Kills => int.TryParse(Environment.GetEnvironmentVariable("MIXENGINE_KILLS"), CultureInfo.InvariantCulture, out var kills) ? kills : 2;

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Nothing_acknowledged_is_lost_and_nothing_is_there_by_halves_in_SQLite()
    {
        await KillAgainAndAgainAsync();
        using var database = SqliteDatabase.Open(Path.Combine(_folder.Data, "mixengine.db"));
        Assert.Empty(DataCheck.Faults(database));
    }

    [Fact]
    public async Task Nothing_acknowledged_is_lost_and_nothing_is_there_by_halves_in_PostgreSQL()
    {
        var place = server.NewDatabase();
        await KillAgainAndAgainAsync("--database", place.ConnectionString);
        using var database = place.Open();
        Assert.Empty(DataCheck.Faults(database));
    }

    private async Task KillAgainAndAgainAsync(params string[] arguments)
    {
        Writing[] last = [];
        var random = new Random(2026);
        for (var kill = 0; kill <= Kills; kill++)
        {
            using var service = await ServiceProcess.StartReadyAsync(_folder, arguments);
            using var channel = UnixChannel.To(_folder.Socket);
            await LookAsync(channel, last);
            if (kill == Kills)
            {
                break;
            }

            if (kill == 0)
            {
                await new V1.Shelves.ShelvesClient(channel).ImportShelfAsync(new ImportShelfRequest { Shelf = "home", FileName = "coast.csv", Content = ByteString.CopyFromUtf8(Coast.Table) });
            }

            last = [new ShelfImports(kill), new SwatchImports(kill), new BatchItems(kill), new SchemeRuns(kill), new LoggedMixes(kill)];
            foreach (var writing in last)
            {
                await writing.PrepareAsync(channel);
            }

            var all = last.Select(writing => Task.Run(() => writing.WriteUntilGoneAsync(channel))).ToArray();

            // At a moment when much is under way: a service that has just started is slow, so moments are counted in what it has acknowledged.
            var enough = random.Next(3, 60);
            await Waiting.UntilAsync(
                () =>
                {
                    Assert.Contains(all, writing => !writing.IsCompleted);
                    return last.Sum(writing => writing.Acknowledged.Count) >= enough;
                },
                "Hardly anything is acknowledged.");
            await Task.Delay(random.Next(0, 12), TestContext.Current.CancellationToken);

            service.Kill();
            await Task.WhenAll(all).WaitAsync(Waiting.Patience);
            await service.EndAsync();
        }

        foreach (var (kind, tally) in _tallies)
        {
            output.WriteLine($"{kind}: {tally}");
        }

        Assert.Equal(5, _tallies.Count);
        Assert.All(_tallies, tally => Assert.True(tally.Value is { Lost: 0, Halves: 0, Twice: 0 }, $"{tally.Key}: {tally.Value}"));
        Assert.True(_tallies.Values.Sum(tally => tally.Acknowledged) >= Kills * 3, "Hardly anything was written.");
    }

    private async Task LookAsync(Grpc.Core.ChannelBase channel, Writing[] written)
    {
        foreach (var writing in written)
        {
            var found = await writing.FindAsync(channel);
            var whole = found.Where(one => one.Whole).Select(one => one.Number).ToHashSet();
            var unknown = writing.Asked.Except(writing.Acknowledged).ToArray();
            var tally = _tallies.GetValueOrDefault(writing.Kind) + new Tally(
                writing.Acknowledged.Count,
                writing.Acknowledged.Count(number => !whole.Contains(number)),
                found.Count(one => !one.Whole),
                unknown.Count(whole.Contains),
                unknown.Count(number => !whole.Contains(number)),
                found.Count - found.DistinctBy(one => one.Number).Count());

            // What was not acknowledged is sent again, as a client would: then it is there once.
            if (writing.MayBeRepeated)
            {
                foreach (var number in unknown)
                {
                    await writing.WriteAsync(channel, number);
                }

                var again = await writing.FindAsync(channel);
                tally += new Tally(0, writing.Asked.Except(again.Select(one => one.Number)).Count(), again.Count(one => !one.Whole), 0, 0, again.Count - again.DistinctBy(one => one.Number).Count());
            }

            _tallies[writing.Kind] = tally;
        }
    }

    /// <summary>What became of the records of one kind.</summary>
    private readonly record struct Tally(int Acknowledged, int Lost, int Halves, int UnknownThere, int UnknownAbsent, int Twice)
    {
        public static Tally operator +(Tally a, Tally b) =>
            new(a.Acknowledged + b.Acknowledged, a.Lost + b.Lost, a.Halves + b.Halves, a.UnknownThere + b.UnknownThere, a.UnknownAbsent + b.UnknownAbsent, a.Twice + b.Twice);

        public override string ToString() =>
            $"{Acknowledged} acknowledged, {Lost} of them lost; {UnknownThere + UnknownAbsent} under way when killed: {UnknownThere} wholly there, {UnknownAbsent} wholly absent; {Halves} by halves; {Twice} twice";
    }
}
