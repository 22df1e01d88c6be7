using System.Collections.Concurrent;
using System.Diagnostics;
using Grpc.Core;
using MixEngine.Service.Refusals;
using MixEngine.Storage;

namespace MixEngine.Service.Shelves;

/// <summary>The shelves with their paints derived: once for each revision, and once for each bottle while nothing new is known of it.</summary>
public sealed class LoadedShelves(ShelfStore store, ILogger<LoadedShelves> logger)
{
    private readonly ConcurrentDictionary<string, Shelf> _loaded = new();
    private readonly ConcurrentDictionary<string, Shelf> _imagined = new();

    /// <summary>The shelf as it is now.</summary>
    /// <exception cref="Refusal">There is no such shelf.</exception>
    public Shelf Get(string name)
    {
        var wanted = ShelfName.OrDefault(name);
        if (store.RevisionOf(wanted) is { } revision)
        {
            var known = _loaded.GetValueOrDefault(ShelfName.Fold(wanted));
            if (known?.Revision == revision)
            {
                return known;
            }

            if (store.Find(wanted) is { } stored)
            {
                return _loaded[ShelfName.Fold(wanted)] = Load(stored, known);
            }
        }

        throw new Refusal(StatusCode.NotFound, "shelf", NoSuchShelf(wanted));
    }

    /// <summary>The shelf as it would be with other swatches, so that a change can be judged before it is made.</summary>
    public Shelf With(Shelf shelf, IReadOnlyList<StoredSwatch> swatches, CancellationToken cancellationToken) =>
        _imagined[ShelfName.Fold(shelf.Name)] = Learnt(shelf with { Swatches = swatches }, [shelf], cancellationToken);

    private Shelf Load(StoredShelf stored, Shelf? before)
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
        Shelf?[] candidates = [before, _imagined.GetValueOrDefault(ShelfName.Fold(stored.Name))];
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

    private string NoSuchShelf(string name)
    {
        var shelves = store.List().Select(shelf => $"'{shelf.Name}'").ToArray();
        return shelves.Length == 0
            ? $"There is no shelf '{Shown.Of(name)}', nor any other yet. Import a table of your paints first."
            : $"There is no shelf '{Shown.Of(name)}'. There are {string.Join(", ", shelves.Take(20))}{(shelves.Length > 20 ? " and others" : "")}.";
    }
}
