
namespace MixEngine.Storage;

/// <summary>The rows that hold the bottles of one shelf.</summary>
internal static class PaintRows
{
    public static List<StoredPaint> Read(Session session, long shelf)
    {
        var pigments = session.Rows(
                "SELECT paint_key, pigment FROM paint_pigment JOIN paint USING (paint_key) WHERE shelf_key = @shelf ORDER BY paint_key, place",
                row => (Paint: row.Long(0), Pigment: row.Text(1)),
                ("@shelf", shelf))
            .ToLookup(row => row.Paint, row => row.Pigment);
        return session.Rows(
            """
            SELECT paint_key, id, name, range, kind, opacity, finish, drops_per_ml, ml_left, notes, color, illuminant, observer_degrees
            FROM paint LEFT JOIN paint_color USING (paint_key) WHERE shelf_key = @shelf ORDER BY paint_key
            """,
            row => new StoredPaint(row.Text(1), new PaintEvidence
            {
                Name = row.Text(2),
                Range = row.TextOrNull(3),
                Kind = StoredWords.Kind.ValueOf(row.Text(4)),
                Opacity = row.TextOrNull(5) is { } opacity ? StoredWords.Opacity.ValueOf(opacity) : null,
                Finish = row.TextOrNull(6) is { } finish ? StoredWords.Finish.ValueOf(finish) : null,
                DropsPerMl = row.NumberOrNull(7),
                MlLeft = row.NumberOrNull(8),
                Notes = row.TextOrNull(9),
                Color = row.TextOrNull(10) is { } color ? new StoredColor(color, row.Text(11), row.Int(12)) : null,
                Pigments = [.. pigments[row.Long(0)]],
            }),
            ("@shelf", shelf));
    }

    public static void Insert(Session session, long shelf, StoredPaint paint)
    {
        var key = session.Number(
            """
            INSERT INTO paint (shelf_key, id, name, folded_name, range, kind, opacity, finish, drops_per_ml, ml_left, notes)
            VALUES (@shelf, @id, @name, @folded, @range, @kind, @opacity, @finish, @drops, @left, @notes) RETURNING paint_key
            """,
            Columns(shelf, paint));
        InsertDetails(session, key, paint.Evidence);
    }

    public static void Update(Session session, long shelf, StoredPaint paint)
    {
        var key = session.Number(
            """
            UPDATE paint SET name = @name, folded_name = @folded, range = @range, kind = @kind, opacity = @opacity, finish = @finish,
                drops_per_ml = @drops, ml_left = @left, notes = @notes
            WHERE shelf_key = @shelf AND id = @id RETURNING paint_key
            """,
            Columns(shelf, paint));
        session.Run("DELETE FROM paint_pigment WHERE paint_key = @key", ("@key", key));
        session.Run("DELETE FROM paint_color WHERE paint_key = @key", ("@key", key));
        InsertDetails(session, key, paint.Evidence);
    }

    public static void Delete(Session session, long shelf, string id) =>
        session.Run("DELETE FROM paint WHERE shelf_key = @shelf AND id = @id", ("@shelf", shelf), ("@id", id));

    private static void InsertDetails(Session session, long key, PaintEvidence evidence)
    {
        for (var place = 0; place < evidence.Pigments.Count; place++)
        {
            session.Run(
                "INSERT INTO paint_pigment (paint_key, place, pigment) VALUES (@key, @place, @pigment)",
                ("@key", key),
                ("@place", place),
                ("@pigment", evidence.Pigments[place]));
        }

        if (evidence.Color is { } color)
        {
            session.Run(
                "INSERT INTO paint_color (paint_key, color, illuminant, observer_degrees) VALUES (@key, @color, @illuminant, @degrees)",
                ("@key", key),
                ("@color", color.Text),
                ("@illuminant", color.Illuminant),
                ("@degrees", color.ObserverDegrees));
        }
    }

    private static (string, object?)[] Columns(long shelf, StoredPaint paint) =>
    [
        ("@shelf", shelf),
        ("@id", paint.Id),
        ("@name", paint.Evidence.Name),
        ("@folded", Fold.Of(paint.Evidence.Name)),
        ("@range", paint.Evidence.Range),
        ("@kind", StoredWords.Kind.WordOf(paint.Evidence.Kind)),
        ("@opacity", paint.Evidence.Opacity is { } opacity ? StoredWords.Opacity.WordOf(opacity) : null),
        ("@finish", paint.Evidence.Finish is { } finish ? StoredWords.Finish.WordOf(finish) : null),
        ("@drops", paint.Evidence.DropsPerMl),
        ("@left", paint.Evidence.MlLeft),
        ("@notes", paint.Evidence.Notes),
    ];
}
