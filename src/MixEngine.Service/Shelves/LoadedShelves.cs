using System.Collections.Concurrent;
using System.Diagnostics;
using Grpc.Core;
using MixEngine.Service.Refusals;
using MixEngine.Storage;

namespace MixEngine.Service.Shelves;

/// <summary>The shelves of all owners with their paints derived: once for each revision, and once for each bottle while nothing new is known of it.</summary>
public sealed class LoadedShelves(ShelfStore store, ILogger<LoadedShelves> logger)
{
    private readonly ConcurrentDictionary<(Owner, string), Shelf> _loaded = new();
    private readonly ConcurrentDictionary<(Owner, string), Shelf> _imagined = new();

    /// <summary>The shelf as it is now.</summary>
    /// <exception cref="Refusal">There is no such shelf.</exception>
    public Shelf Get(Owner owner, string name)
    {
        var wanted = ShelfName.OrDefault(name);
        if (store.RevisionOf(owner, wanted) is { } revision)
        {
            var place = (owner, ShelfName.Fold(wanted));
            var known = _loaded.GetValueOrDefault(place);
            if (known?.Revision == revision)
            {
                return known;
            }

            if (store.Find(owner, wanted) is { } stored)
            {
                return _loaded[place] = Load(place, stored, known);
            }
        }

        throw new Refusal(StatusCode.NotFound, "shelf", NoSuchShelf(owner, wanted));
    }

    /// <summary>The shelf as it would be with other swatches, so that a change can be judged before it is made.</summary>
    public Shelf With(Owner owner, Shelf shelf, IReadOnlyList<StoredSwatch> swatches, CancellationToken cancellationToken) =>
        _imagined[(owner, ShelfName.Fold(shelf.Name))] = Learnt(shelf with { Swatches = swatches }, [shelf], cancellationToken);

    private Shelf Load((Owner, string) place, StoredShelf stored, Shelf? before)
    {
        // A bottle of which the same is known as before need not be derived again.
        var start = Stopwatch.GetTimestamp();
        var known = before?.Bottles.ToDictionary(bottle => bottle.Stored.Id) ?? [];
        var derived = 0;
        var bottles = stored.Paints.Select(paint =>
        {
            if (known.GetValueOrDefault(paint.Id) is { } bottle && bottle.Stored.Equals(paint))
            {
                return bottle;
            }

            derived++;
            return new Bottle(paint, PaintFromEvidence.Derive(paint));
        }).ToArray();
        Log.ShelfLoaded(logger, stored.Revision, derived, bottles.Length, (long)Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        Shelf?[] candidates = [before, _imagined.GetValueOrDefault(place)];
        return Learnt(new Shelf(stored.Name, stored.Revision, bottles) { Swatches = stored.Swatches }, candidates.OfType<Shelf>(), CancellationToken.None);
    }

    // What was learnt of the same paints from the same swatches need not be learnt again.
    private static Shelf Learnt(Shelf shelf, IEnumerable<Shelf> candidates, CancellationToken cancellationToken)
    {
        var same = candidates.FirstOrDefault(known =>
            known.Swatches.SequenceEqual(shelf.Swatches) && known.Bottles.Select(bottle => bottle.Entered).SequenceEqual(shelf.Bottles.Select(bottle => bottle.Entered), ReferenceEqualityComparer.Instance));
        var learning = same?.Learning ?? (shelf.Swatches.Count == 0 ? Learning.Nothing : Learning.From([.. shelf.Bottles.Select(bottle => bottle.Entered)], shelf.Swatches, cancellationToken));
        return new Shelf(shelf.Name, shelf.Revision, [.. shelf.Bottles.Select(bottle => bottle with { Paint = learning.Of(bottle.Entered) })])
        {
            Swatches = shelf.Swatches,
            Learning = learning,
        };
    }

    private string NoSuchShelf(Owner owner, string name)
    {
        var shelves = store.List(owner).Select(shelf => $"'{shelf.Name}'").ToArray();
        return shelves.Length == 0
            ? $"There is no shelf '{Shown.Of(name)}', nor any other yet. Import a table of your paints first."
            : $"There is no shelf '{Shown.Of(name)}'. There are {string.Join(", ", shelves.Take(20))}{(shelves.Length > 20 ? " and others" : "")}.";
    }
}
