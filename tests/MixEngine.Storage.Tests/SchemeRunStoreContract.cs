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
}
