using System.Globalization;
using Microsoft.Data.Sqlite;

namespace MixEngine.Storage;

/// <summary>The rows that hold the swatches of one shelf.</summary>
internal static class SwatchRows
{
    private const string DateForm = "yyyy-MM-dd";

    public static List<StoredSwatch> Read(Session session, long shelf)
    {
        var parts = session.Rows(
                "SELECT swatch_key, paint, parts FROM swatch_part JOIN swatch USING (swatch_key) WHERE shelf_key = @shelf ORDER BY swatch_key, place",
                row => (Swatch: row.GetInt64(0), Part: new StoredPart(row.GetString(1), row.GetDouble(2))),
                ("@shelf", shelf))
            .ToLookup(row => row.Swatch, row => row.Part);
        return session.Rows(
            """
            SELECT swatch_key, id, color, illuminant, observer_degrees, backing, backing_illuminant, backing_observer_degrees,
                film, thickness_um, coats, dosing, source, specular, finish, date, note
            FROM swatch WHERE shelf_key = @shelf ORDER BY swatch_key
            """,
            row => new StoredSwatch(row.GetString(1), new SwatchEvidence
            {
                Parts = [.. parts[row.GetInt64(0)]],
                Color = new StoredColor(row.GetString(2), row.GetString(3), row.GetInt32(4)),
                Backing = Text(row, 5) is { } backing ? new StoredColor(backing, row.GetString(6), row.GetInt32(7)) : null,
                Film = Text(row, 8),
                ThicknessUm = row.IsDBNull(9) ? null : row.GetDouble(9),
                Coats = row.IsDBNull(10) ? null : row.GetInt32(10),
                Dosing = StoredWords.Dosing.ValueOf(row.GetString(11)),
                Source = Text(row, 12) is { } source ? StoredWords.Source.ValueOf(source) : null,
                Specular = StoredWords.Specular.ValueOf(row.GetString(13)),
                Finish = Text(row, 14) is { } finish ? StoredWords.Finish.ValueOf(finish) : null,
                Date = Text(row, 15) is { } date ? DateOnly.ParseExact(date, DateForm, CultureInfo.InvariantCulture) : null,
                Note = Text(row, 16),
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

    private static string? Text(SqliteDataReader row, int column) => row.IsDBNull(column) ? null : row.GetString(column);
}
