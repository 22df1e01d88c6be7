namespace MixEngine.Storage.Tests;

public abstract class MixLogContract : StoreContract
{
    private readonly MixLog _log;

    protected MixLogContract(DatabasePlace place)
        : base(place) => _log = new MixLog(Database);

    [Fact]
    public void A_mix_comes_back_as_it_was_written()
    {
        var run = new SchemeRunStore(Database, TimeProvider.System).Keep(Owner.Home, "skiffs", "1", "d", new SchemeRunContent([], new Dictionary<string, StoredShelf>(), [])).Run;
        var full = new MadeMix(0, "2026-11-25T04:00:00+01:00", run, 2, [new MadePart("kelp", 3.5, "B\07"), new MadePart("昆布", 1, null)], new StoredColor("#445533", "D50", 10), "it's thin");
        var bare = new MadeMix(0, "2026-11-25T05:00:00Z", null, null, [new MadePart("kelp", 1, null)], null, null);
        var (first, second) = (_log.Add(Owner.Home, full)!, _log.Add(Owner.Home, bare)!);
        Assert.True(second.Key > first.Key);
        Same([second, first], _log.List(Owner.Home, null));
        Same([first], _log.List(Owner.Home, run));
        Assert.Empty(_log.List(Owner.Home, run + 1));
        Assert.Null(_log.Add(Owner.Home, full with { Run = run + 1 }));
        Assert.Equal(2, _log.List(Owner.Home, null).Count);
    }

    [Fact]
    public void A_mix_that_is_sent_again_under_its_id_is_noted_once()
    {
        var mix = new MadeMix(0, "2026-11-25T04:00:00Z", null, null, [new MadePart("kelp", 3, null)], null, "first");
        var request = new RepeatableRequest("wash-1", [1]);
        var kept = _log.Add(Owner.Home, mix, request)!;
        Same([kept], [_log.Add(Owner.Home, mix with { Made = "2026-11-25T04:00:09Z" }, request)!]);
        Assert.Throws<RequestIdTakenException>(() => _log.Add(Owner.Home, mix, request with { Hash = [2] }));
        Same([kept], _log.List(Owner.Home, null));
    }

    [Fact]
    public void Each_owner_counts_from_one()
    {
        var mix = new MadeMix(0, "2026-11-25T04:00:00Z", null, null, [new MadePart("kelp", 3, null)], null, null);
        Owner guild = Owner.Named("guild");
        Assert.Equal([1L, 2L, 1L, 3L], new[] { Owner.Home, Owner.Home, guild, Owner.Home }.Select(owner => _log.Add(owner, mix)!.Key));
        Assert.Equal(3, _log.List(Owner.Home, null).Count);
        Assert.Equal("kelp", Assert.Single(Assert.Single(_log.List(guild, null)).Parts).Paint);
    }

    private static void Same(IReadOnlyList<MadeMix> expected, IReadOnlyList<MadeMix> read)
    {
        Assert.Equal(expected.Select(mix => mix with { Parts = [] }), read.Select(mix => mix with { Parts = [] }));
        Assert.Equal(expected.SelectMany(mix => mix.Parts), read.SelectMany(mix => mix.Parts));
    }
}
