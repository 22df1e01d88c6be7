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
                row => (Mix: row.Long(0), Part: new MadePart(row.Text(1), row.Number(2), row.TextOrNull(3))),
                asked)
            .ToLookup(row => row.Mix, row => row.Part);
        return session.Rows(
            $"""
            SELECT mix_key, made, run_key, pot, swatch, swatch_illuminant, swatch_observer_degrees, notes
            FROM made_mix WHERE owner = @owner {ofRun} ORDER BY mix_key DESC LIMIT {MostListed}
            """,
            row => new MadeMix(
                row.Long(0), row.Text(1), row.LongOrNull(2), row.IntOrNull(3), [.. parts[row.Long(0)]],
                row.TextOrNull(4) is { } swatch ? new StoredColor(swatch, row.Text(5), row.Int(6)) : null, row.TextOrNull(7)),
            asked);
    }
}
