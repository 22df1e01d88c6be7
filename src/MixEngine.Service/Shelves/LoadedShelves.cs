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
        return new Shelf(stored.Name, stored.Revision, bottles);
    }

    private string NoSuchShelf(string name)
    {
        var shelves = store.List().Select(shelf => $"'{shelf.Name}'").ToArray();
        return shelves.Length == 0
            ? $"There is no shelf '{Shown.Of(name)}', nor any other yet. Import a table of your paints first."
            : $"There is no shelf '{Shown.Of(name)}'. There are {string.Join(", ", shelves.Take(20))}{(shelves.Length > 20 ? " and others" : "")}.";
    }
}
