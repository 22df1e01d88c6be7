namespace MixEngine.Storage;

/// <summary>The mixes that were really made. Safe to use from several threads.</summary>
public sealed class MixLog(Database database)
{
    /// <summary>Most mixes in a list.</summary>
    public const int MostListed = 1000;

    /// <summary>Keeps a mix and gives it its number, the next of its owner's. One that was kept under the same request's id is not kept again: it is returned.</summary>
    /// <param name="owner">Whose mix.</param>
    /// <param name="mix">The mix, without its number.</param>
    /// <param name="request">The request that notes it; null: one that is never sent again.</param>
    /// <returns>Null when it names a run that its owner does not have.</returns>
    /// <exception cref="RequestIdTakenException">The id was another request's.</exception>
    public MadeMix? Add(Owner owner, MadeMix mix, RepeatableRequest? request = null)
    {
        using var session = Session.Writing(database, owner, "mixes");
        if (request is not null && OfRequest(session, owner, request) is { } known)
        {
            return known;
        }

        if (mix.Run is { } run && session.Number("SELECT count(*) FROM scheme_run WHERE owner = @owner AND run_key = @run", ("@owner", owner.Name), ("@run", run)) == 0)
        {
            return null;
        }

        var key = session.Number(
            """
            INSERT INTO made_mix (owner, mix_key, made, run_key, pot, swatch, swatch_illuminant, swatch_observer_degrees, notes, request_id, request_hash)
            VALUES (@owner, (SELECT coalesce(max(mix_key), 0) + 1 FROM made_mix WHERE owner = @owner), @made, @run, @pot, @swatch, @illuminant, @degrees, @notes, @id, @hash)
            RETURNING mix_key
            """,
            ("@owner", owner.Name), ("@made", mix.Made), ("@run", mix.Run), ("@pot", mix.Pot), ("@swatch", mix.Swatch?.Text),
            ("@illuminant", mix.Swatch?.Illuminant), ("@degrees", mix.Swatch?.ObserverDegrees), ("@notes", mix.Notes), ("@id", request?.Id), ("@hash", request?.Hash));
        for (var place = 0; place < mix.Parts.Count; place++)
        {
            session.Run(
                "INSERT INTO made_part (owner, mix_key, place, paint, drops, batch) VALUES (@owner, @mix, @place, @paint, @drops, @batch)",
                ("@owner", owner.Name), ("@mix", key), ("@place", place), ("@paint", mix.Parts[place].Paint), ("@drops", mix.Parts[place].Drops), ("@batch", mix.Parts[place].Batch));
        }

        session.Commit();
        return mix with { Key = key };
    }

    /// <summary>An owner's latest mixes, the latest first: of one run, or all.</summary>
    public IReadOnlyList<MadeMix> List(Owner owner, long? run)
    {
        using var session = Session.Reading(database);
        return run is null
            ? Mixes(session, "owner = @owner", ("@owner", owner.Name))
            : Mixes(session, "owner = @owner AND run_key = @run", ("@owner", owner.Name), ("@run", run));
    }

    private static MadeMix? OfRequest(Session session, Owner owner, RepeatableRequest request)
    {
        var hashes = session.Rows("SELECT request_hash FROM made_mix WHERE owner = @owner AND request_id = @id", row => row.Bytes(0), ("@owner", owner.Name), ("@id", request.Id));
        if (hashes.Count == 0)
        {
            return null;
        }

        request.ThrowUnlessSame(hashes[0]);
        return Mixes(session, "owner = @owner AND request_id = @id", ("@owner", owner.Name), ("@id", request.Id))[0];
    }

    private static List<MadeMix> Mixes(Session session, string which, params (string, object?)[] asked)
    {
        var latest = $"FROM made_mix WHERE {which} ORDER BY mix_key DESC LIMIT {MostListed}";
        var parts = session.Rows(
                $"SELECT mix_key, paint, drops, batch FROM made_part JOIN (SELECT owner, mix_key {latest}) AS listed USING (owner, mix_key) ORDER BY mix_key, place",
                row => (Mix: row.Long(0), Part: new MadePart(row.Text(1), row.Number(2), row.TextOrNull(3))),
                asked)
            .ToLookup(row => row.Mix, row => row.Part);
        return session.Rows(
            $"SELECT mix_key, made, run_key, pot, swatch, swatch_illuminant, swatch_observer_degrees, notes {latest}",
            row => new MadeMix(
                row.Long(0), row.Text(1), row.LongOrNull(2), row.IntOrNull(3), [.. parts[row.Long(0)]],
                row.TextOrNull(4) is { } swatch ? new StoredColor(swatch, row.Text(5), row.Int(6)) : null, row.TextOrNull(7)),
            asked);
    }
}
