using CsCheck;
using MixEngine.Core;

namespace MixEngine.Storage.Tests;

public abstract class SwatchStoreContract : StoreContract
{
    private static readonly SwatchEvidence LetDown = new()
    {
        Parts = [new StoredPart("kelp", 1), new StoredPart("gull white", 4)],
        Color = new StoredColor("#8a9b7c", "D65", 2),
        Source = ReadingSource.Photo,
        Specular = SpecularMode.Excluded,
        Finish = Finish.Matt,
        Date = new DateOnly(2026, 11, 25),
        Note = "on the \"good\" palette",
    };

    private static readonly SwatchEvidence Film = new()
    {
        Parts = [new StoredPart("kelp", 1)],
        Color = new StoredColor("spectrum:400=0.1,410=0.30000000000000004", "D65", 2),
        Backing = new StoredColor("black", "D65", 2),
        Film = "first",
        ThicknessUm = 37.5,
        Coats = 2,
        Dosing = Dosing.Weighed,
        Source = ReadingSource.Instrument,
    };

    private readonly ShelfStore _shelves;
    private readonly SwatchStore _store;

    protected SwatchStoreContract(DatabasePlace place)
        : base(place)
    {
        _shelves = new ShelfStore(Database);
        _store = new SwatchStore(Database);
        _shelves.Import(Owner.Home, "tide", [Paints.Kelp], dryRun: false);
    }

    [Fact]
    public void Swatches_come_back_as_given_and_in_their_order()
    {
        Add(Film, LetDown);
        Assert.Equal([new StoredSwatch("s1", Film), new StoredSwatch("s2", LetDown)], Swatches());
    }

    [Fact]
    public void Whatever_text_and_numbers_were_given_come_back_identically()
    {
        var text = Gen.OneOf(Gen.String[Gen.Char.AlphaNumeric, 1, 20], Gen.OneOf(Gen.Const("it's \"quoted\""), Gen.Const("昆布"), Gen.Const("'; DROP TABLE swatch; --"), Gen.Const("  blanks  "), Gen.Const("nul\0inside")));
        var number = Gen.OneOf(Gen.Double[0, 1e6], Gen.Const(double.Epsilon), Gen.Const(0.1 + 0.2), Gen.Const(3.0));
        var evidence =
            from parts in Gen.Select(text, number, (paint, amount) => new StoredPart(paint, amount)).Array[1, 4]
            from color in text
            from backing in text.Null()
            from film in text.Null()
            from thickness in number.Nullable()
            from coats in Gen.Int[1, 100].Nullable()
            from dosing in Gen.Enum<Dosing>()
            from source in Gen.Enum<ReadingSource>().Nullable()
            from specular in Gen.Enum<SpecularMode>()
            from finish in Gen.Enum<Finish>().Nullable()
            from day in Gen.Int[0, 3_000_000].Nullable()
            from note in text.Null()
            select new SwatchEvidence
            {
                Parts = parts, Color = new StoredColor(color, "D50", 10), Backing = backing is null ? null : new StoredColor(backing, "A", 2), Film = film, ThicknessUm = thickness,
                Coats = coats, Dosing = dosing, Source = source, Specular = specular, Finish = finish, Date = day is { } d ? DateOnly.FromDayNumber(d) : null, Note = note,
            };
        var shelf = 0;
        evidence.Sample(
            given =>
            {
                var name = $"shelf{Interlocked.Increment(ref shelf)}";
                _shelves.Import(Owner.Home, name, [Paints.Kelp], dryRun: false);
                _store.Import(Owner.Home, name, [(null, given)], dryRun: false);
                return _shelves.Find(Owner.Home, name)!.Swatches[0].Evidence.Equals(given);
            },
            iter: 100,
            threads: 1);
    }

    [Fact]
    public void The_same_swatch_is_kept_once()
    {
        Add(LetDown);
        var revision = _shelves.RevisionOf(Owner.Home, "tide");
        var change = Add(LetDown, LetDown with { Note = null });
        Assert.Equal("s1", Assert.Single(change.AlreadyThere).Id);
        Assert.Equal("s2", Assert.Single(change.Added).Id);
        Assert.Equal(2, Swatches().Count);
        Assert.True(_shelves.RevisionOf(Owner.Home, "tide") > revision);
        revision = _shelves.RevisionOf(Owner.Home, "tide");
        Add(LetDown);
        Assert.Equal(revision, _shelves.RevisionOf(Owner.Home, "tide"));
    }

    [Fact]
    public void A_wished_id_is_given_where_it_is_free()
    {
        _store.Import(Owner.Home, "tide", [("card 3", Film), ("s1", LetDown), ("card 3", LetDown with { Note = null })], dryRun: false);
        Assert.Equal(["card 3", "s1", "s2"], Swatches().Select(swatch => swatch.Id));
    }

    [Fact]
    public void Nothing_is_lost_when_a_paint_is_changed_or_taken_away()
    {
        Add(LetDown, Film);
        _shelves.Import(Owner.Home, "tide", [Paints.Kelp with { Color = null, Notes = "other" }], dryRun: false);
        _shelves.Remove(Owner.Home, "tide", "kelp");
        Assert.Equal([LetDown, Film], Swatches().Select(swatch => swatch.Evidence));
    }

    [Fact]
    public void A_dry_run_tells_the_change_and_changes_nothing()
    {
        Assert.Single(_store.Import(Owner.Home, "tide", [(null, LetDown)], dryRun: true)!.Added);
        Assert.Empty(Swatches());
        Assert.Equal(1, _shelves.RevisionOf(Owner.Home, "tide"));
    }

    [Fact]
    public void A_corrected_swatch_stands_in_the_place_of_the_one_with_its_id()
    {
        Add(LetDown, Film);
        var corrected = new StoredSwatch("s1", LetDown with { Parts = [new StoredPart("kelp", 2)], Date = null });
        Assert.Equal(LetDown, _store.Correct(Owner.Home, "TIDE", corrected)!.Evidence);
        Assert.Equal([corrected, new StoredSwatch("s2", Film)], Swatches());
        Assert.Null(_store.Correct(Owner.Home, "tide", corrected with { Id = "s9" }));
        Assert.Null(_store.Correct(Owner.Home, "ebb", corrected));
    }

    [Fact]
    public void A_removed_swatch_is_told_and_gone()
    {
        Add(LetDown, Film);
        Assert.Equal(LetDown, _store.Remove(Owner.Home, "tide", "s1")!.Evidence);
        Assert.Equal([new StoredSwatch("s2", Film)], Swatches());
        Assert.Null(_store.Remove(Owner.Home, "tide", "s1"));
        Assert.Null(_store.Import(Owner.Home, "ebb", [(null, Film)], dryRun: false));
    }

    [Fact]
    public void An_import_that_fails_halfway_changes_nothing()
    {
        Assert.ThrowsAny<Exception>(() => Add(LetDown, Film with { Finish = (Finish)99 }));
        Assert.Empty(Swatches());
    }

    private SwatchChange Add(params SwatchEvidence[] swatches) => _store.Import(Owner.Home, "tide", [.. swatches.Select(swatch => ((string?)null, swatch))], dryRun: false)!;

    private IReadOnlyList<StoredSwatch> Swatches() => _shelves.Find(Owner.Home, "tide")!.Swatches;
}
