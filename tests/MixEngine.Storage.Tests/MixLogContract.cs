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

    private static void Same(IReadOnlyList<MadeMix> expected, IReadOnlyList<MadeMix> read)
    {
        Assert.Equal(expected.Select(mix => mix with { Parts = [] }), read.Select(mix => mix with { Parts = [] }));
        Assert.Equal(expected.SelectMany(mix => mix.Parts), read.SelectMany(mix => mix.Parts));
    }
}
