namespace MixEngine.Storage;

/// <summary>A row of the table of shelves.</summary>
internal sealed record ShelfRow(long Key, string Name, long Revision)
{
    public static ShelfRow? Find(Session session, string shelf) =>
        session.Rows(
            "SELECT shelf_key, name, revision FROM shelf WHERE folded_name = $folded",
            row => new ShelfRow(row.GetInt64(0), row.GetString(1), row.GetInt64(2)),
            ("$folded", Fold.Of(shelf))).FirstOrDefault();

    public static ShelfRow Create(Session session, string shelf) =>
        new(
            session.Number(
                "INSERT INTO shelf (name, folded_name, revision) VALUES ($name, $folded, 0) RETURNING shelf_key",
                ("$name", shelf),
                ("$folded", Fold.Of(shelf))),
            shelf,
            0);

    public static void Advance(Session session, long key) =>
        session.Run("UPDATE shelf SET revision = revision + 1 WHERE shelf_key = $key", ("$key", key));
}
