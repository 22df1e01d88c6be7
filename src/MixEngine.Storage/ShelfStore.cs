namespace MixEngine.Storage;

/// <summary>The shelves of all owners, one owner at a time. Each call is one transaction: it happens wholly or not at all.</summary>
public sealed class ShelfStore(Database database)
{
    /// <summary>An owner's shelves, by name.</summary>
    public IReadOnlyList<ShelfSummary> List(Owner owner)
    {
        using var session = Session.Asking(database);
        return session.Rows(
            "SELECT name, revision, (SELECT count(*) FROM paint WHERE paint.shelf_key = shelf.shelf_key) FROM shelf WHERE owner = @owner ORDER BY folded_name",
            row => new ShelfSummary(row.Text(0), row.Long(1), row.Int(2)),
            ("@owner", owner.Name));
    }

    /// <summary>
    /// A number that is another whenever anything may have changed since it was asked before, on any shelf and by anybody; null where to ask for it would cost as much as
    /// <see cref="RevisionOf"/>.
    /// </summary>
    public long? ChangeCount() => database.ChangeCount();

    /// <summary>The revision at which a shelf is; null when there is no such shelf.</summary>
    public long? RevisionOf(Owner owner, string shelf)
    {
        using var session = Session.Asking(database);
        return ShelfRow.Find(session, owner, shelf)?.Revision;
    }

    /// <summary>A shelf with all its bottles; null when there is no such shelf.</summary>
    public StoredShelf? Find(Owner owner, string shelf)
    {
        using var session = Session.Reading(database);
        return ShelfRow.Find(session, owner, shelf) is { } row
            ? new StoredShelf(row.Name, row.Revision, PaintRows.Read(session, row.Key)) { Swatches = SwatchRows.Read(session, row.Key) }
            : null;
    }

    /// <summary>Puts bottles on a shelf, which is made where there is none. A bottle that is there already is brought up to date and keeps its id.</summary>
    /// <remarks>A bottle is the same when its name is, in any case and with any blanks.</remarks>
    /// <param name="owner">Whose shelf.</param>
    /// <param name="shelf">The shelf's name.</param>
    /// <param name="paints">What was entered; no bottle twice.</param>
    /// <param name="dryRun">Say what would change, and change nothing.</param>
    /// <exception cref="ArgumentException">A bottle stands twice in what was entered.</exception>
    public ShelfChange Import(Owner owner, string shelf, IReadOnlyList<PaintEvidence> paints, bool dryRun)
    {
        if (paints.CountBy(paint => Fold.Of(paint.Name)).FirstOrDefault(name => name.Value > 1) is { Value: > 1 } twice)
        {
            throw new ArgumentException($"'{twice.Key}' was entered {twice.Value} times.", nameof(paints));
        }

        using var session = Session.Writing(database, owner, ShelfRow.Claim(shelf));
        var row = ShelfRow.Find(session, owner, shelf) ?? ShelfRow.Create(session, owner, shelf);
        var stored = PaintRows.Read(session, row.Key).ToDictionary(paint => Fold.Of(paint.Evidence.Name));
        var ids = stored.Values.Select(paint => paint.Id).ToHashSet();
        List<StoredPaint> added = [], changed = [], unchanged = [];
        foreach (var evidence in paints)
        {
            if (!stored.TryGetValue(Fold.Of(evidence.Name), out var known))
            {
                added.Add(new StoredPaint(PaintId.For(evidence, ids.Contains), evidence));
                ids.Add(added[^1].Id);
                PaintRows.Insert(session, row.Key, added[^1]);
            }
            else if (known.Evidence.Equals(evidence))
            {
                unchanged.Add(known);
            }
            else
            {
                changed.Add(known with { Evidence = evidence });
                PaintRows.Update(session, row.Key, changed[^1]);
            }
        }

        if (!dryRun)
        {
            if (added.Count + changed.Count > 0)
            {
                ShelfRow.Advance(session, row.Key);
            }

            session.Commit();
        }

        return new ShelfChange(row.Name, added, changed, unchanged);
    }

    /// <summary>Takes a bottle off a shelf.</summary>
    /// <returns>What was removed; null when there is no such shelf or no such bottle on it.</returns>
    public StoredPaint? Remove(Owner owner, string shelf, string paintId)
    {
        using var session = Session.Writing(database, owner, ShelfRow.Claim(shelf));
        if (ShelfRow.Find(session, owner, shelf) is not { } row
            || PaintRows.Read(session, row.Key).FirstOrDefault(paint => paint.Id == paintId) is not { } paint)
        {
            return null;
        }

        PaintRows.Delete(session, row.Key, paintId);
        ShelfRow.Advance(session, row.Key);
        session.Commit();
        return paint;
    }
}
