using System.Diagnostics;
using Grpc.Core;
using Microsoft.Extensions.Caching.Memory;
using MixEngine.Service.Refusals;
using MixEngine.Storage;

namespace MixEngine.Service.Shelves;

/// <summary>
/// The shelves of all owners with their paints derived: once for each revision, and once for each bottle while nothing new is known of it. What was not asked for
/// the longest is let go of where there are too many, and derived again when it is asked for.
/// </summary>
/// <param name="store">Where they are kept.</param>
/// <param name="logger">Learns when one was loaded.</param>
/// <param name="most">Most bottles and swatches to hold, of all shelves together.</param>
public sealed class LoadedShelves(ShelfStore store, ILogger<LoadedShelves> logger, long most = LoadedShelves.MostHeld) : IDisposable
{
    // Some kilobytes each.
    private const long MostHeld = 20_000;
    private static readonly TimeSpan Unasked = TimeSpan.FromHours(2);

    private readonly MemoryCache _shelves = new(new MemoryCacheOptions { SizeLimit = most, CompactionPercentage = 0.25 });

    /// <summary>How many shelves are held now, imagined ones too.</summary>
    public int Held => _shelves.Count;

    /// <summary>The shelf as it is now.</summary>
    /// <exception cref="Refusal">There is no such shelf.</exception>
    public Shelf Get(Owner owner, string name)
    {
        var wanted = ShelfName.OrDefault(name);
        var place = new Place(owner, ShelfName.Fold(wanted), IsImagined: false);
        var held = _shelves.Get<Loaded>(place);

        // Counted before anything is read: what changes meanwhile is seen the next time.
        var changes = store.ChangeCount();
        if (held is not null && held.Changes == changes)
        {
            return held.Shelf;
        }

        if (store.RevisionOf(owner, wanted) is { } revision)
        {
            if (held?.Shelf.Revision == revision)
            {
                held.Changes = changes ?? Loaded.Never;
                return held.Shelf;
            }

            if (store.Find(owner, wanted) is { } stored)
            {
                return Hold(place, Load(place, stored, held?.Shelf), changes);
            }
        }

        throw new Refusal(StatusCode.NotFound, "shelf", NoSuchShelf(owner, wanted));
    }

    /// <summary>The shelf as it would be with other swatches, so that a change can be judged before it is made.</summary>
    public Shelf With(Owner owner, Shelf shelf, IReadOnlyList<StoredSwatch> swatches, CancellationToken cancellationToken) =>
        Hold(new Place(owner, ShelfName.Fold(shelf.Name), IsImagined: true), Learnt(shelf with { Swatches = swatches }, [shelf], cancellationToken), changes: null);

    /// <summary>Lets go of all of them.</summary>
    public void Dispose() => _shelves.Dispose();

    private Shelf Hold(Place place, Shelf shelf, long? changes)
    {
        _shelves.Set(place, new Loaded(shelf) { Changes = changes ?? Loaded.Never }, new MemoryCacheEntryOptions { Size = 1 + shelf.Bottles.Count + shelf.Swatches.Count, SlidingExpiration = Unasked });
        return shelf;
    }

    private Shelf Load(Place place, StoredShelf stored, Shelf? before)
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
        Shelf?[] candidates = [before, _shelves.Get<Loaded>(place with { IsImagined = true })?.Shelf];
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

    private sealed record Place(Owner Owner, string FoldedName, bool IsImagined);

    private sealed class Loaded(Shelf shelf)
    {
        /// <summary>No count of changes.</summary>
        public const long Never = long.MinValue;

        private long _changes = Never;

        public Shelf Shelf => shelf;

        /// <summary>The count of changes at which it was the stored one.</summary>
        public long Changes
        {
            get => Volatile.Read(ref _changes);
            set => Volatile.Write(ref _changes, value);
        }
    }
}
