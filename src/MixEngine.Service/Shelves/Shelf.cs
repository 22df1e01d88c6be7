using System.Collections.Frozen;
using MixEngine.Core;
using MixEngine.Storage;

namespace MixEngine.Service.Shelves;

/// <summary>A shelf with its paints as the engine knows them. Immutable.</summary>
/// <param name="Name">As stored.</param>
/// <param name="Revision">The revision of the stored shelf that this is.</param>
/// <param name="Bottles">What was entered, and what follows from it, in the order of the shelf.</param>
public sealed record Shelf(string Name, long Revision, IReadOnlyList<Bottle> Bottles)
{
    /// <summary>What was measured of its paints, in the order in which it was entered.</summary>
    public IReadOnlyList<StoredSwatch> Swatches { get; init; } = [];

    /// <summary>What was learnt from that.</summary>
    public Learning Learning { get; init; } = Learning.Nothing;

    /// <summary>The paints on it.</summary>
    public IEnumerable<Paint> Paints => Bottles.Select(bottle => bottle.Paint);

    /// <summary>A stored shelf with each of its paints derived anew.</summary>
    public static Shelf Of(StoredShelf stored) => new(stored.Name, stored.Revision, [.. stored.Paints.Select(paint => new Bottle(paint, PaintFromEvidence.Derive(paint)))]);

    /// <summary>What a recipe may name: the paints on it, and medium and water, which are always at hand.</summary>
    public IReadOnlyList<Paint> AtHand { get; } = WithMediumAndWater([.. Bottles.Select(bottle => bottle.Paint)]);

    /// <summary>The paint at hand of a folded id or name, ids first; null where there is none.</summary>
    public Paint? Named(string folded) => _named.Value.GetValueOrDefault(folded);

    private readonly Lazy<FrozenDictionary<string, Paint>> _named = ByName(Bottles);

    private static Lazy<FrozenDictionary<string, Paint>> ByName(IReadOnlyList<Bottle> bottles) => new(() =>
    {
        var named = new Dictionary<string, Paint>();
        var paints = WithMediumAndWater([.. bottles.Select(bottle => bottle.Paint)]);
        foreach (var (name, paint) in paints.Select(paint => (paint.Id, paint)).Concat(paints.Select(paint => (PaintLookup.Fold(paint.Name), paint))))
        {
            named.TryAdd(name, paint);
        }

        return named.ToFrozenDictionary();
    });

    /// <summary>Paints of a shelf, and medium and water where no bottle stands for them.</summary>
    public static IReadOnlyList<Paint> WithMediumAndWater(IReadOnlyList<Paint> paints) =>
        [.. paints, .. new[] { Paint.Medium, Paint.Water }.Where(always => paints.All(paint => paint.Id != always.Id))];
}

/// <summary>One bottle.</summary>
/// <param name="Stored">What was entered.</param>
/// <param name="Entered">What follows from that alone.</param>
public sealed record Bottle(StoredPaint Stored, Paint Entered)
{
    /// <summary>What follows from that and from all swatches together.</summary>
    public Paint Paint { get; init; } = Entered;
}
