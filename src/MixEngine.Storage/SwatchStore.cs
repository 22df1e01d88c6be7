namespace MixEngine.Storage;

/// <summary>The swatches kept with shelves. Each call is one transaction: it happens wholly or not at all. A refit or the removal of a paint touches none of them.</summary>
public sealed class SwatchStore(Database database)
{
    /// <summary>Keeps swatches; what is there already, to the last digit, is not kept twice.</summary>
    /// <param name="owner">Whose shelf.</param>
    /// <param name="shelf">The shelf's name.</param>
    /// <param name="swatches">Each with the id that is wished for it, and gets it where it is free; null: the next of ours.</param>
    /// <param name="dryRun">Say what would change, and change nothing.</param>
    /// <returns>Null when there is no such shelf.</returns>
    public SwatchChange? Import(Owner owner, string shelf, IReadOnlyList<(string? WishedId, SwatchEvidence Evidence)> swatches, bool dryRun)
    {
        using var session = Session.Writing(database, owner, ShelfRow.Claim(shelf));
        if (ShelfRow.Find(session, owner, shelf) is not { } row)
        {
            return null;
        }

        var known = new Dictionary<SwatchEvidence, StoredSwatch>();
        var ids = new HashSet<string>(StringComparer.Ordinal);
        foreach (var stored in SwatchRows.Read(session, row.Key))
        {
            known.TryAdd(stored.Evidence, stored);
            ids.Add(stored.Id);
        }

        var next = ids.Select(NumberOf).DefaultIfEmpty(0).Max();
        List<StoredSwatch> added = [], alreadyThere = [];
        foreach (var (wished, evidence) in swatches)
        {
            if (known.TryGetValue(evidence, out var same))
            {
                alreadyThere.Add(same);
                continue;
            }

            var id = wished;
            while (id is null || !ids.Add(id))
            {
                id = $"s{++next}";
            }

            added.Add(new StoredSwatch(id, evidence));
            known.Add(evidence, added[^1]);
            SwatchRows.Insert(session, row.Key, added[^1]);
        }

        if (!dryRun && added.Count > 0)
        {
            ShelfRow.Advance(session, row.Key);
            session.Commit();
        }

        return new SwatchChange(added, alreadyThere);
    }

    /// <summary>Puts a corrected swatch in the place of the one with its id.</summary>
    /// <returns>What was there before; null when there is no such shelf or no such swatch on it.</returns>
    public StoredSwatch? Correct(Owner owner, string shelf, StoredSwatch corrected)
    {
        using var session = Session.Writing(database, owner, ShelfRow.Claim(shelf));
        if (Find(session, owner, shelf, corrected.Id) is not var (row, before))
        {
            return null;
        }

        if (!before.Evidence.Equals(corrected.Evidence))
        {
            SwatchRows.Update(session, row.Key, corrected);
            ShelfRow.Advance(session, row.Key);
            session.Commit();
        }

        return before;
    }

    /// <summary>Forgets a swatch.</summary>
    /// <returns>What was removed; null when there is no such shelf or no such swatch on it.</returns>
    public StoredSwatch? Remove(Owner owner, string shelf, string id)
    {
        using var session = Session.Writing(database, owner, ShelfRow.Claim(shelf));
        if (Find(session, owner, shelf, id) is not var (row, swatch))
        {
            return null;
        }

        SwatchRows.Delete(session, row.Key, id);
        ShelfRow.Advance(session, row.Key);
        session.Commit();
        return swatch;
    }

    private static (ShelfRow Row, StoredSwatch Swatch)? Find(Session session, Owner owner, string shelf, string id) =>
        ShelfRow.Find(session, owner, shelf) is { } row && SwatchRows.Read(session, row.Key).FirstOrDefault(swatch => swatch.Id == id) is { } swatch
            ? (row, swatch)
            : null;

    // "s12" is the twelfth of ours.
    private static int NumberOf(string id) => id is ['s', .. var digits] && int.TryParse(digits, out var number) && number is > 0 and < int.MaxValue / 2 ? number : 0;
}
