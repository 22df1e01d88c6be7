namespace MixEngine.Storage.Tests;

public abstract class BatchStoreContract : StoreContract
{
    private readonly Clock _clock = new();
    private readonly BatchStore _store;

    protected BatchStoreContract(DatabasePlace place)
        : base(place) => _store = new BatchStore(Database, _clock);

    [Fact]
    public void Answers_come_back_byte_by_byte_until_they_are_acknowledged()
    {
        _store.Open(Owner.Home, "night", "tide 1");
        byte[] everyByte = [.. Enumerable.Range(0, 256).Select(value => (byte)value)];
        _store.Keep(Owner.Home, "night", [("skiff", [1, 2], everyByte), ("empty", [], [])]);
        var skiff = _store.Find(Owner.Home, "night", "skiff")!;
        Assert.Equal([1, 2], skiff.ItemHash);
        Assert.Equal(everyByte, skiff.Answer);
        Assert.False(skiff.Acknowledged);
        Assert.Equal((2, 0), _store.Count(Owner.Home, "night"));

        _store.Acknowledge(Owner.Home, "night", ["skiff", "no such key"]);
        Assert.True(_store.Find(Owner.Home, "night", "skiff")!.Acknowledged);
        Assert.Empty(_store.Find(Owner.Home, "night", "skiff")!.Answer);
        Assert.Equal((1, 1), _store.Count(Owner.Home, "night"));
        Assert.Null(_store.Find(Owner.Home, "night", "no such key"));
    }

    [Fact]
    public void A_key_keeps_its_first_answer()
    {
        _store.Open(Owner.Home, "night", "tide 1");
        _store.Keep(Owner.Home, "night", [("skiff", [1], [11])]);
        var standing = _store.Keep(Owner.Home, "night", [("skiff", [1], [12]), ("cutter", [2], [13])])!;
        Assert.Equal([[11], [13]], standing.Select(one => one.Answer));
        Assert.Equal([11], _store.Find(Owner.Home, "night", "skiff")!.Answer);
        Assert.Equal([13], _store.Find(Owner.Home, "night", "cutter")!.Answer);
    }

    [Fact]
    public void Each_answer_of_a_batch_has_the_next_number_and_one_of_the_same_id_opened_later_has_others()
    {
        _store.Open(Owner.Home, "night", "tide 1");
        var first = _store.Keep(Owner.Home, "night", [("skiff", [1], [11]), ("cutter", [2], [12])])!;
        _store.Open(Owner.Home, "night", "tide 2");
        var then = _store.Keep(Owner.Home, "night", [("cutter", [2], [13]), ("ketch", [3], [14])])!;
        long[] numbers = [.. first.Concat(then).Select(answer => answer.Number)];
        Assert.Equal([numbers[0], numbers[0] + 1, numbers[0] + 1, numbers[0] + 2], numbers);
        Assert.Equal(numbers[1], _store.Find(Owner.Home, "night", "cutter")!.Number);
        Assert.Equal([("cutter", numbers[1]), ("ketch", numbers[3]), ("skiff", numbers[0])], _store.Kept(Owner.Home, "night", null, 10).Select(answer => (answer.Key, answer.Number)));

        _store.Discard(Owner.Home, "night");
        _store.Open(Owner.Home, "night", "tide 1");
        var anew = Assert.Single(_store.Keep(Owner.Home, "night", [("skiff", [1], [11])])!).Number;
        Assert.NotEqual(numbers[0] >> BatchStore.NumberBits, anew >> BatchStore.NumberBits);
    }

    [Fact]
    public void Pages_hold_every_answer_once_in_the_order_of_bytes()
    {
        _store.Open(Owner.Home, "night", "tide 1");
        string[] keys = ["B", "a", "ä", "Z", "_", "10", "9", "昆布", "~"];
        _store.Keep(Owner.Home, "night", [.. keys.Select(key => (key, new byte[] { 1 }, new byte[] { 2 }))]);
        List<string> read = [];
        while (_store.Kept(Owner.Home, "night", read.LastOrDefault(), 2) is { Count: > 0 } page)
        {
            read.AddRange(page.Select(answer => answer.Key));
        }

        Assert.Equal(keys.Order(StringComparer.Ordinal), read);
    }

    [Fact]
    public void A_batch_tells_the_state_it_was_opened_for_first()
    {
        Assert.Equal("tide 1", _store.Open(Owner.Home, "night", "tide 1"));
        Assert.Equal("tide 1", _store.Open(Owner.Home, "night", "tide 2"));
        Assert.Equal(0, _store.Discard(Owner.Home, "night"));
        Assert.Equal("tide 2", _store.Open(Owner.Home, "night", "tide 2"));
    }

    [Fact]
    public void A_batch_that_nobody_touched_for_long_is_forgotten_with_its_answers()
    {
        _store.Open(Owner.Home, "old", "tide 1");
        _store.Keep(Owner.Home, "old", [("skiff", [1], [11])]);
        _store.Open(Owner.Home, "touched", "tide 1");
        _clock.Now += BatchStore.Forgotten - TimeSpan.FromDays(1);
        _store.Keep(Owner.Home, "touched", [("skiff", [1], [11])]);
        _clock.Now += TimeSpan.FromDays(2);
        _store.Open(Owner.Home, "new", "tide 1");
        Assert.Equal((0, 0), _store.Count(Owner.Home, "old"));
        Assert.Null(_store.Discard(Owner.Home, "old"));
        Assert.Equal(1, _store.Discard(Owner.Home, "touched"));
    }

    [Fact]
    public void A_clock_that_jumps_loses_no_answer_of_a_batch_in_use()
    {
        _store.Open(Owner.Home, "night", "tide 1");
        _store.Keep(Owner.Home, "night", [("1", [1], [11])]);

        // Back by a year, and opened again: nothing is older than it was.
        _clock.Now -= TimeSpan.FromDays(365);
        _store.Open(Owner.Home, "other", "tide 1");
        Assert.Equal("tide 1", _store.Open(Owner.Home, "night", "tide 2"));
        Assert.Equal((1, 0), _store.Count(Owner.Home, "night"));

        // Forward by two years: whoever opens it again finds it, since nobody opened another before.
        _clock.Now += TimeSpan.FromDays(730);
        Assert.NotNull(_store.Keep(Owner.Home, "night", [("2", [2], [12])]));
        _store.Open(Owner.Home, "third", "tide 1");
        Assert.Equal((2, 0), _store.Count(Owner.Home, "night"));
    }

    [Fact]
    public void An_answer_to_no_batch_is_not_kept_and_that_is_said()
    {
        Assert.Null(_store.Keep(Owner.Home, "never opened", [("skiff", [1], [11])]));
        Assert.Equal((0, 0), _store.Count(Owner.Home, "never opened"));
    }

    [Fact]
    public async Task Services_that_share_a_batch_answer_each_item_once()
    {
        // As replicas do: each with connections of its own.
        using var other = Place.Open();
        BatchStore[] replicas = [_store, new BatchStore(other, _clock)];
        _store.Open(Owner.Home, "night", "tide 1");
        await Task.WhenAll(Enumerable.Range(0, 8).Select(worker => Task.Run(() =>
        {
            for (var i = 0; i < 20; i++)
            {
                // Forwards and backwards, so that two of them meet in the middle.
                var keys = Enumerable.Range(0, 10).Select(key => $"{i}-{key}");
                replicas[worker % 2].Keep(Owner.Home, "night", [.. (worker % 2 == 0 ? keys : keys.Reverse()).Select(key => (key, new byte[] { 1 }, new[] { (byte)worker }))]);
            }
        })));
        Assert.Equal((200, 0), _store.Count(Owner.Home, "night"));
    }

    private sealed class Clock : TimeProvider
    {
        public DateTimeOffset Now { get; set; } = new(2026, 11, 25, 4, 0, 0, TimeSpan.Zero);

        public override DateTimeOffset GetUtcNow() => Now;
    }
}
