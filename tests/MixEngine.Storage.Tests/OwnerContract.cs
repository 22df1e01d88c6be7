namespace MixEngine.Storage.Tests;

public abstract class OwnerContract : StoreContract
{
    private static readonly Owner Guild = Owner.Named("harbour-guild");


    protected OwnerContract(DatabasePlace place)
        : base(place)
    {
    }

    [Theory]
    [InlineData("home", true)]
    [InlineData("club.7-b_c", true)]
    [InlineData("", false)]
    [InlineData("Home", false)]
    [InlineData("two words", false)]
    [InlineData("ö", false)]
    public void Owners_have_plain_names(string name, bool valid)
    {
        Assert.Equal(valid, Owner.IsName(name));
        if (valid)
        {
            Assert.Equal(name, Owner.Named(name).Name);
        }
        else
        {
            Assert.Contains($"'{name}'", Assert.Throws<ArgumentException>(() => Owner.Named(name)).Message);
        }
    }

    [Fact]
    public void A_name_of_65_characters_is_refused() => Assert.False(Owner.IsName(new string('a', 65)));

    [Fact]
    public void Shelves_and_swatches_are_seen_by_their_owner_alone()
    {
        var (shelves, swatches) = (new ShelfStore(Database), new SwatchStore(Database));
        var evidence = new SwatchEvidence { Parts = [new StoredPart("kelp", 1)], Color = new StoredColor("#334422", "D65", 2) };
        shelves.Import(Owner.Home, "tide", [Paints.Kelp], dryRun: false);
        swatches.Import(Owner.Home, "tide", [(null, evidence)], dryRun: false);

        Assert.Empty(shelves.List(Guild));
        Assert.Null(shelves.RevisionOf(Guild, "tide"));
        Assert.Null(shelves.Find(Guild, "tide"));
        Assert.Null(shelves.Remove(Guild, "tide", "kelp"));
        Assert.Null(swatches.Import(Guild, "tide", [(null, evidence)], dryRun: false));
        Assert.Null(swatches.Correct(Guild, "tide", new StoredSwatch("s1", evidence with { Note = "mine now" })));
        Assert.Null(swatches.Remove(Guild, "tide", "s1"));

        // A shelf of the same name is another shelf.
        shelves.Import(Guild, "TIDE", [Paints.Brine], dryRun: false);
        Assert.Equal([Paints.Brine], shelves.Find(Guild, "tide")!.Paints.Select(paint => paint.Evidence));
        var own = shelves.Find(Owner.Home, "tide")!;
        Assert.Equal(("tide", 2L), (own.Name, own.Revision));
        Assert.Equal([Paints.Kelp], own.Paints.Select(paint => paint.Evidence));
        Assert.Equal([evidence], own.Swatches.Select(swatch => swatch.Evidence));
    }

    [Fact]
    public void Batches_of_one_name_are_one_for_each_owner()
    {
        var batches = new BatchStore(Database, TimeProvider.System);
        Assert.Equal("tide 1", batches.Open(Owner.Home, "night", "tide 1"));
        Assert.Equal("ebb 7", batches.Open(Guild, "night", "ebb 7"));
        batches.Keep(Owner.Home, "night", [("1", [1], [11]), ("2", [2], [12])]);

        Assert.Equal((0, 0), batches.Count(Guild, "night"));
        Assert.Empty(batches.Kept(Guild, "night", null, 10));
        Assert.Null(batches.Find(Guild, "night", "1"));
        batches.Acknowledge(Guild, "night", ["1"]);
        Assert.Equal(0, batches.Discard(Guild, "night"));
        Assert.Null(batches.Discard(Guild, "night"));
        Assert.Equal((2, 0), batches.Count(Owner.Home, "night"));
        Assert.Equal([11], batches.Find(Owner.Home, "night", "1")!.Answer);
    }

    [Fact]
    public void Runs_and_mixes_are_seen_by_their_owner_alone()
    {
        var (runs, mixes) = (new SchemeRunStore(Database, TimeProvider.System), new MixLog(Database));
        var run = runs.Keep(Owner.Home, "skiffs", "1.0", "ab", new SchemeRunContent([1], new Dictionary<string, StoredShelf>(), [2])).Run;
        var mix = new MadeMix(0, "2026-11-25T04:00:00Z", run, 1, [new MadePart("kelp", 3, null)], null, null);
        Assert.NotNull(mixes.Add(Owner.Home, mix));

        Assert.Empty(runs.List(Guild));
        Assert.Null(runs.Find(Guild, run));
        Assert.Empty(mixes.List(Guild, null));
        Assert.Empty(mixes.List(Guild, run));
        Assert.Null(mixes.Add(Guild, mix));
        Assert.NotNull(mixes.Add(Guild, mix with { Run = null }));
        Assert.Single(mixes.List(Owner.Home, run));
        Assert.Single(runs.List(Owner.Home));
    }
}
