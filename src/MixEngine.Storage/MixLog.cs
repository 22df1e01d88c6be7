namespace MixEngine.Storage;

/// <summary>The mixes that were really made. Safe to use from several threads.</summary>
public sealed class MixLog(Database database)
{
    /// <summary>Most mixes in a list.</summary>
    public const int MostListed = 1000;

    /// <summary>Keeps a mix and gives it its number.</summary>
    /// <returns>Null when it names a run that its owner does not have.</returns>
    public MadeMix? Add(Owner owner, MadeMix mix)
    {
        using var session = Session.Writing(database);
        if (mix.Run is { } run && session.Number("SELECT count(*) FROM scheme_run WHERE owner = @owner AND run_key = @run", ("@owner", owner.Name), ("@run", run)) == 0)
        {
            return null;
        }

        var key = session.Number(
            """
            INSERT INTO made_mix (owner, made, run_key, pot, swatch, swatch_illuminant, swatch_observer_degrees, notes)
            VALUES (@owner, @made, @run, @pot, @swatch, @illuminant, @degrees, @notes) RETURNING mix_key
            """,
            ("@owner", owner.Name), ("@made", mix.Made), ("@run", mix.Run), ("@pot", mix.Pot), ("@swatch", mix.Swatch?.Text),
            ("@illuminant", mix.Swatch?.Illuminant), ("@degrees", mix.Swatch?.ObserverDegrees), ("@notes", mix.Notes));
        for (var place = 0; place < mix.Parts.Count; place++)
        {
            session.Run(
                "INSERT INTO made_part (mix_key, place, paint, drops, batch) VALUES (@mix, @place, @paint, @drops, @batch)",
                ("@mix", key), ("@place", place), ("@paint", mix.Parts[place].Paint), ("@drops", mix.Parts[place].Drops), ("@batch", mix.Parts[place].Batch));
        }

        session.Commit();
        return mix with { Key = key };
    }

    /// <summary>An owner's latest mixes, the latest first: of one run, or all.</summary>
    public IReadOnlyList<MadeMix> List(Owner owner, long? run)
    {
        using var session = Session.Reading(database);
        var ofRun = run is null ? "" : "AND run_key = @run";
        (string, object?)[] asked = run is null ? [("@owner", owner.Name)] : [("@owner", owner.Name), ("@run", run)];
        var parts = session.Rows(
                $"SELECT mix_key, paint, drops, batch FROM made_part JOIN made_mix USING (mix_key) WHERE owner = @owner {ofRun} ORDER BY mix_key, place",
                row => (Mix: row.GetInt64(0), Part: new MadePart(row.GetString(1), row.GetDouble(2), row.IsDBNull(3) ? null : row.GetString(3))),
                asked)
            .ToLookup(row => row.Mix, row => row.Part);
        return session.Rows(
            $"""
            SELECT mix_key, made, run_key, pot, swatch, swatch_illuminant, swatch_observer_degrees, notes
            FROM made_mix WHERE owner = @owner {ofRun} ORDER BY mix_key DESC LIMIT {MostListed}
            """,
            row => new MadeMix(
                row.GetInt64(0), row.GetString(1), row.IsDBNull(2) ? null : row.GetInt64(2), row.IsDBNull(3) ? null : row.GetInt32(3), [.. parts[row.GetInt64(0)]],
                row.IsDBNull(4) ? null : new StoredColor(row.GetString(4), row.GetString(5), row.GetInt32(6)), row.IsDBNull(7) ? null : row.GetString(7)),
            asked);
    }
}
