namespace MixEngine.Storage.Tests;

public abstract class SchemeRunStoreContract : StoreContract
{
    private readonly SchemeRunStore _store;

    protected SchemeRunStoreContract(DatabasePlace place)
        : base(place) => _store = new SchemeRunStore(Database, TimeProvider.System);

    [Fact]
    public void A_run_comes_back_with_all_it_was_made_from()
    {
        var shelf = new StoredShelf("Tide", 4, [new StoredPaint("kelp", Paints.Kelp)])
        {
            Swatches = [new StoredSwatch("s1", new SwatchEvidence { Parts = [new StoredPart("kelp", 1)], Color = new StoredColor("#334422", "D65", 2) })],
        };
        var kept = _store.Keep(Owner.Home, "skiffs of the \"ebb\"", "1.2.3", "ab12", new SchemeRunContent([1, 0, 255], new Dictionary<string, StoredShelf> { ["tide"] = shelf }, [7]));
        var (run, content) = _store.Find(Owner.Home, kept.Run)!.Value;
        Assert.Equal(kept, run);
        Assert.Equal([1, 0, 255], content.Request);
        Assert.Equal([7], content.Answer);
        var then = content.Shelves["tide"];
        Assert.Equal((shelf.Name, shelf.Revision), (then.Name, then.Revision));
        Assert.Equal(shelf.Paints, then.Paints);
        Assert.Equal(shelf.Swatches, then.Swatches);
    }

    [Fact]
    public void Numbers_rise_and_the_latest_is_listed_first()
    {
        var runs = Enumerable.Range(0, 3).Select(number => _store.Keep(Owner.Home, $"scheme {number}", "1", "d", new SchemeRunContent([], new Dictionary<string, StoredShelf>(), []))).ToArray();
        Assert.True(runs[0].Run < runs[1].Run && runs[1].Run < runs[2].Run);
        Assert.Equal(runs.Reverse(), _store.List(Owner.Home));
        Assert.Null(_store.Find(Owner.Home, runs[2].Run + 1));
    }

    [Fact]
    public async Task Of_requests_under_one_id_one_run_is_kept()
    {
        var content = new SchemeRunContent([1], new Dictionary<string, StoredShelf>(), [2]);
        var request = new RepeatableRequest("skiffs-1", [1, 2]);
        Assert.Null(_store.OfRequest(Owner.Home, request));
        var runs = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Run(() => _store.Keep(Owner.Home, "skiffs", "1", "d", content, request))));
        Assert.All(runs, run => Assert.Equal(runs[0].Run, run.Run));
        Assert.Equal(runs[0].Run, _store.OfRequest(Owner.Home, request)!.Run);
        Assert.Single(_store.List(Owner.Home));

        // Another question under the same id is refused, another owner's id is another id, and what has none is kept each time.
        Assert.Throws<RequestIdTakenException>(() => _store.Keep(Owner.Home, "skiffs", "1", "d", content, request with { Hash = [3] }));
        Assert.Throws<RequestIdTakenException>(() => _store.OfRequest(Owner.Home, request with { Hash = [3] }));
        Assert.Null(_store.OfRequest(Owner.Named("guild"), request));
        _store.Keep(Owner.Home, "skiffs", "1", "d", content);
        _store.Keep(Owner.Home, "skiffs", "1", "d", content);
        Assert.Equal(3, _store.List(Owner.Home).Count);
    }

    [Fact]
    public async Task Each_owner_counts_from_one_without_gaps()
    {
        var content = new SchemeRunContent([], new Dictionary<string, StoredShelf>(), []);
        Owner[] owners = [Owner.Home, Owner.Named("guild")];
        await Task.WhenAll(Enumerable.Range(0, 8).Select(worker => Task.Run(() =>
        {
            for (var i = 0; i < 5; i++)
            {
                _store.Keep(owners[worker % 2], "skiffs", "1", "d", content);
            }
        })));
        Assert.All(owners, owner => Assert.Equal(Enumerable.Range(1, 20).Select(number => (long)number), _store.List(owner).Select(run => run.Run).Order()));
    }

    [Fact]
    public void A_clock_that_jumps_back_changes_no_order()
    {
        var clock = new Jumping();
        var store = new SchemeRunStore(Database, clock);
        var content = new SchemeRunContent([], new Dictionary<string, StoredShelf>(), []);
        List<long> kept = [];
        foreach (var days in new[] { 0, -400, 30, -1 })
        {
            clock.Now += TimeSpan.FromDays(days);
            kept.Add(store.Keep(Owner.Home, "skiffs", "1", "d", content).Run);
        }

        Assert.Equal(kept.AsEnumerable().Reverse(), store.List(Owner.Home).Select(run => run.Run));
    }

    private sealed class Jumping : TimeProvider
    {
        public DateTimeOffset Now { get; set; } = new(2026, 11, 25, 4, 0, 0, TimeSpan.Zero);

        public override DateTimeOffset GetUtcNow() => Now;
    }
}
