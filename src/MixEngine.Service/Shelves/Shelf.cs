using MixEngine.Core;
using MixEngine.Storage;

namespace MixEngine.Service.Shelves;

/// <summary>A shelf with its paints as the engine knows them. Immutable.</summary>
/// <param name="Name">As stored.</param>
/// <param name="Revision">The revision of the stored shelf that this is.</param>
/// <param name="Bottles">What was entered, and what follows from it, in the order of the shelf.</param>
public sealed record Shelf(string Name, long Revision, IReadOnlyList<Bottle> Bottles)
{
    /// <summary>The paints on it.</summary>
    public IEnumerable<Paint> Paints => Bottles.Select(bottle => bottle.Paint);

    /// <summary>What a recipe may name: the paints on it, and medium and water, which are always at hand.</summary>
    public IReadOnlyList<Paint> AtHand { get; } =
        [.. Bottles.Select(bottle => bottle.Paint), .. new[] { Paint.Medium, Paint.Water }.Where(always => Bottles.All(bottle => bottle.Paint.Id != always.Id))];
}

/// <summary>One bottle.</summary>
/// <param name="Stored">What was entered.</param>
/// <param name="Paint">What follows from it.</param>
public sealed record Bottle(StoredPaint Stored, Paint Paint);
