using CsCheck;
using MixEngine.Core;

namespace MixEngine.Storage.Tests;

public abstract class ShelfStoreContract : StoreContract
{
    private static readonly string[] Strange =
    [
        "it's \"quoted\"", "Ölkannen-Grün", "昆布", "🌊🦀", "a;b,c\td", "'; DROP TABLE paint; --", "  blanks  around  ", "%_\\", "nul\0inside",
    ];

    private readonly ShelfStore _store;

    protected ShelfStoreContract(DatabasePlace place)
        : base(place)
    {
        _store = new ShelfStore(Database);
    }

    [Fact]
    public void Paints_come_back_as_entered_and_in_their_order()
    {
        _store.Import(Owner.Home, "tide", [Paints.SeaLettuce, Paints.Kelp, Paints.Brine], dryRun: false);
        var shelf = _store.Find(Owner.Home, "tide")!;
        Assert.Equal([Paints.SeaLettuce, Paints.Kelp, Paints.Brine], shelf.Paints.Select(paint => paint.Evidence));
        Assert.Equal(["sea-lettuce", "kelp", "brine-medium"], shelf.Paints.Select(paint => paint.Id));
    }

    [Fact]
    public void Whatever_text_and_numbers_were_entered_come_back_identically()
    {
        var text = Gen.OneOf(
            Gen.String[Gen.Char.AlphaNumeric, 1, 20],
            Gen.OneOf([.. Strange.Select(word => Gen.Const(word))]));
        var number = Gen.OneOf(Gen.Double[0, 1e6], Gen.Const(0.0), Gen.Const(double.Epsilon), Gen.Const(0.1 + 0.2));
        var evidence =
            from name in text
            from range in text.Null()
            from notes in text.Null()
            from drops in number.Nullable()
            from left in number.Nullable()
            from pigments in text.Array[0, 4]
            from kind in Gen.Enum<PaintKind>()
            from opacity in Gen.Enum<OpacityWord>().Nullable()
            from finish in Gen.Enum<Finish>().Nullable()
            from color in text.Select(Gen.Int[2, 10], (words, degrees) => new StoredColor(words, "D65", degrees)).Null()
            select new PaintEvidence
            {
                Name = name, Range = range, Notes = notes, DropsPerMl = drops, MlLeft = left, Pigments = pigments,
                Kind = kind, Opacity = opacity, Finish = finish, Color = color,
            };
        var shelf = 0;
        evidence.Sample(
            entered =>
            {
                var name = $"shelf{Interlocked.Increment(ref shelf)}";
                _store.Import(Owner.Home, name, [entered], dryRun: false);
                return _store.Find(Owner.Home, name)!.Paints[0].Evidence.Equals(entered);
            },
            iter: 200,
            threads: 1);
    }

    [Fact]
    public void A_paint_of_the_same_name_is_brought_up_to_date_and_keeps_its_id()
    {
        _store.Import(Owner.Home, "tide", [Paints.Kelp, Paints.SeaLettuce], dryRun: false);
        var change = _store.Import(Owner.Home, "tide", [Paints.SeaLettuce, Paints.Kelp with { Name = " KELP", Pigments = ["PG7"], Color = null }], dryRun: false);
        Assert.Empty(change.Added);
        Assert.Equal("kelp", Assert.Single(change.Changed).Id);
        Assert.Equal("sea-lettuce", Assert.Single(change.Unchanged).Id);
        var kelp = _store.Find(Owner.Home, "tide")!.Paints[0];
        Assert.Equal(("kelp", " KELP", null), (kelp.Id, kelp.Evidence.Name, kelp.Evidence.Color));
        Assert.Equal(["PG7"], kelp.Evidence.Pigments);
    }

    [Fact]
    public void Names_that_shorten_alike_get_ids_of_their_own()
    {
        var names = new[] { "sea lettuce", "sea-lettuce", "Sea_Lettuce!", "++", "--", "medium", "Water", "昆布" };
        _store.Import(Owner.Home, "tide", [.. names.Select(name => Paints.Kelp with { Name = name })], dryRun: false);
        Assert.Equal(
            ["sea-lettuce", "sea-lettuce-2", "sea-lettuce-3", "paint", "paint-2", "medium-2", "water-2", "昆布"],
            _store.Find(Owner.Home, "tide")!.Paints.Select(paint => paint.Id));
    }

    [Fact]
    public void A_bottle_of_medium_called_medium_takes_the_place_of_the_general_one()
    {
        _store.Import(Owner.Home, "tide", [Paints.Brine with { Name = "Medium" }], dryRun: false);
        Assert.Equal("medium", Assert.Single(_store.Find(Owner.Home, "tide")!.Paints).Id);
    }

    [Fact]
    public void An_id_freed_by_one_paint_may_serve_another()
    {
        _store.Import(Owner.Home, "tide", [Paints.Kelp], dryRun: false);
        Assert.Equal(Paints.Kelp, _store.Remove(Owner.Home, "TIDE", "kelp")!.Evidence);
        Assert.Empty(_store.Find(Owner.Home, "tide")!.Paints);
        Assert.Null(_store.Remove(Owner.Home, "tide", "kelp"));
        Assert.Null(_store.Remove(Owner.Home, "ebb", "kelp"));
    }

    [Fact]
    public void The_revision_grows_with_each_change_and_with_nothing_else()
    {
        Assert.Null(_store.RevisionOf(Owner.Home, "tide"));
        _store.Import(Owner.Home, "tide", [Paints.Kelp], dryRun: false);
        var first = _store.RevisionOf(Owner.Home, "tide");
        _store.Import(Owner.Home, "tide", [Paints.Kelp], dryRun: false);
        _store.Import(Owner.Home, "tide", [Paints.SeaLettuce], dryRun: true);
        _store.Import(Owner.Home, "ebb", [Paints.Kelp], dryRun: false);
        _store.Remove(Owner.Home, "tide", "no such paint");
        Assert.Equal(first, _store.RevisionOf(Owner.Home, "Tide"));
        _store.Import(Owner.Home, "tide", [Paints.Kelp with { Notes = "other" }], dryRun: false);
        var second = _store.RevisionOf(Owner.Home, "tide");
        Assert.True(second > first);
        _store.Remove(Owner.Home, "tide", "kelp");
        Assert.True(_store.RevisionOf(Owner.Home, "tide") > second);
    }

    [Fact]
    public void A_dry_run_tells_the_change_and_changes_nothing()
    {
        var change = _store.Import(Owner.Home, "tide", [Paints.Kelp], dryRun: true);
        Assert.Equal("kelp", Assert.Single(change.Added).Id);
        Assert.Null(_store.Find(Owner.Home, "tide"));
        Assert.Empty(_store.List(Owner.Home));
    }

    [Fact]
    public void An_import_that_fails_halfway_changes_nothing()
    {
        _store.Import(Owner.Home, "tide", [Paints.Kelp], dryRun: false);
        var revision = _store.RevisionOf(Owner.Home, "tide");
        PaintEvidence broken = Paints.SeaLettuce with { Finish = (Finish)99 };
        Assert.ThrowsAny<Exception>(() => _store.Import(Owner.Home, "tide", [Paints.Brine, broken], dryRun: false));
        Assert.Equal("kelp", Assert.Single(_store.Find(Owner.Home, "tide")!.Paints).Id);
        Assert.Equal(revision, _store.RevisionOf(Owner.Home, "tide"));
    }

    [Fact]
    public void A_paint_entered_twice_is_a_mistake_of_the_caller()
    {
        var mistake = Assert.Throws<ArgumentException>(() => _store.Import(Owner.Home, "tide", [Paints.Kelp, Paints.Kelp with { Name = "Kelp" }], dryRun: false));
        Assert.Contains("'kelp' was entered 2 times", mistake.Message);
    }

    [Fact]
    public void Shelves_are_listed_by_name_and_found_in_any_case()
    {
        _store.Import(Owner.Home, "Tide", [Paints.Kelp, Paints.Brine], dryRun: false);
        _store.Import(Owner.Home, "ebb", [Paints.Kelp], dryRun: false);
        _store.Import(Owner.Home, "TIDE", [Paints.SeaLettuce], dryRun: false);
        Assert.Equal([new ShelfSummary("ebb", 1, 1), new ShelfSummary("Tide", 2, 3)], _store.List(Owner.Home));
        Assert.Equal("Tide", _store.Find(Owner.Home, "tide")!.Name);
    }

    [Fact]
    public async Task Many_writers_at_once_lose_nothing()
    {
        await Task.WhenAll(Enumerable.Range(0, 16).Select(number => Task.Run(() =>
            _store.Import(Owner.Home, "tide", [Paints.Kelp with { Name = $"kelp {number}" }], dryRun: false))));
        Assert.Equal(16, _store.Find(Owner.Home, "tide")!.Paints.Count);
        Assert.Equal(16, _store.RevisionOf(Owner.Home, "tide"));
    }
}
