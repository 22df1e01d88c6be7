using System.Globalization;

namespace MixEngine.Storage;

/// <summary>The rows that hold the swatches of one shelf.</summary>
internal static class SwatchRows
{
    private const string DateForm = "yyyy-MM-dd";

    public static List<StoredSwatch> Read(Session session, long shelf)
    {
        var parts = session.Rows(
                "SELECT swatch_key, paint, parts FROM swatch_part JOIN swatch USING (swatch_key) WHERE shelf_key = @shelf ORDER BY swatch_key, place",
                row => (Swatch: row.Long(0), Part: new StoredPart(row.Text(1), row.Number(2))),
                ("@shelf", shelf))
            .ToLookup(row => row.Swatch, row => row.Part);
        return session.Rows(
            """
            SELECT swatch_key, id, color, illuminant, observer_degrees, backing, backing_illuminant, backing_observer_degrees,
                film, thickness_um, coats, dosing, source, specular, finish, date, note
            FROM swatch WHERE shelf_key = @shelf ORDER BY swatch_key
            """,
            row => new StoredSwatch(row.Text(1), new SwatchEvidence
            {
                Parts = [.. parts[row.Long(0)]],
                Color = new StoredColor(row.Text(2), row.Text(3), row.Int(4)),
                Backing = row.TextOrNull(5) is { } backing ? new StoredColor(backing, row.Text(6), row.Int(7)) : null,
                Film = row.TextOrNull(8),
                ThicknessUm = row.NumberOrNull(9),
                Coats = row.IntOrNull(10),
                Dosing = StoredWords.Dosing.ValueOf(row.Text(11)),
                Source = row.TextOrNull(12) is { } source ? StoredWords.Source.ValueOf(source) : null,
                Specular = StoredWords.Specular.ValueOf(row.Text(13)),
                Finish = row.TextOrNull(14) is { } finish ? StoredWords.Finish.ValueOf(finish) : null,
                Date = row.TextOrNull(15) is { } date ? DateOnly.ParseExact(date, DateForm, CultureInfo.InvariantCulture) : null,
                Note = row.TextOrNull(16),
            }),
            ("@shelf", shelf));
    }

    public static void Insert(Session session, long shelf, StoredSwatch swatch)
    {
        var key = session.Number(
            """
            INSERT INTO swatch (shelf_key, id, color, illuminant, observer_degrees, backing, backing_illuminant, backing_observer_degrees,
                film, thickness_um, coats, dosing, source, specular, finish, date, note)
            VALUES (@shelf, @id, @color, @illuminant, @degrees, @backing, @backing_illuminant, @backing_degrees,
                @film, @thickness, @coats, @dosing, @source, @specular, @finish, @date, @note) RETURNING swatch_key
            """,
            Columns(shelf, swatch));
        InsertParts(session, key, swatch.Evidence);
    }

    public static void Update(Session session, long shelf, StoredSwatch swatch)
    {
        var key = session.Number(
            """
            UPDATE swatch SET color = @color, illuminant = @illuminant, observer_degrees = @degrees,
                backing = @backing, backing_illuminant = @backing_illuminant, backing_observer_degrees = @backing_degrees,
                film = @film, thickness_um = @thickness, coats = @coats, dosing = @dosing, source = @source, specular = @specular,
                finish = @finish, date = @date, note = @note
            WHERE shelf_key = @shelf AND id = @id RETURNING swatch_key
            """,
            Columns(shelf, swatch));
        session.Run("DELETE FROM swatch_part WHERE swatch_key = @key", ("@key", key));
        InsertParts(session, key, swatch.Evidence);
    }

    public static void Delete(Session session, long shelf, string id) =>
        session.Run("DELETE FROM swatch WHERE shelf_key = @shelf AND id = @id", ("@shelf", shelf), ("@id", id));

    private static void InsertParts(Session session, long key, SwatchEvidence evidence)
    {
        for (var place = 0; place < evidence.Parts.Count; place++)
        {
            session.Run(
                "INSERT INTO swatch_part (swatch_key, place, paint, parts) VALUES (@key, @place, @paint, @parts)",
                ("@key", key),
                ("@place", place),
                ("@paint", evidence.Parts[place].Paint),
                ("@parts", evidence.Parts[place].Parts));
        }
    }

    private static (string, object?)[] Columns(long shelf, StoredSwatch swatch) =>
    [
        ("@shelf", shelf),
        ("@id", swatch.Id),
        ("@color", swatch.Evidence.Color.Text),
        ("@illuminant", swatch.Evidence.Color.Illuminant),
        ("@degrees", swatch.Evidence.Color.ObserverDegrees),
        ("@backing", swatch.Evidence.Backing?.Text),
        ("@backing_illuminant", swatch.Evidence.Backing?.Illuminant),
        ("@backing_degrees", swatch.Evidence.Backing?.ObserverDegrees),
        ("@film", swatch.Evidence.Film),
        ("@thickness", swatch.Evidence.ThicknessUm),
        ("@coats", swatch.Evidence.Coats),
        ("@dosing", StoredWords.Dosing.WordOf(swatch.Evidence.Dosing)),
        ("@source", swatch.Evidence.Source is { } source ? StoredWords.Source.WordOf(source) : null),
        ("@specular", StoredWords.Specular.WordOf(swatch.Evidence.Specular)),
        ("@finish", swatch.Evidence.Finish is { } finish ? StoredWords.Finish.WordOf(finish) : null),
        ("@date", swatch.Evidence.Date?.ToString(DateForm, CultureInfo.InvariantCulture)),
        ("@note", swatch.Evidence.Note),
    ];
}
