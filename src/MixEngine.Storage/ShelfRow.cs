namespace MixEngine.Storage;

/// <summary>A row of the table of shelves. Everything on a shelf is reached through its row, and the row through its owner.</summary>
internal sealed record ShelfRow(long Key, string Name, long Revision)
{
    public static ShelfRow? Find(Session session, Owner owner, string shelf) =>
        session.Rows(
            "SELECT shelf_key, name, revision FROM shelf WHERE owner = @owner AND folded_name = @folded",
            row => new ShelfRow(row.Long(0), row.Text(1), row.Long(2)),
            ("@owner", owner.Name),
            ("@folded", Fold.Of(shelf))).FirstOrDefault();

    /// <summary>What a session claims that changes a shelf, or makes it.</summary>
    public static string Claim(string shelf) => $"shelf {Fold.Of(shelf)}";

    public static ShelfRow Create(Session session, Owner owner, string shelf) =>
        new(
            session.Number(
                "INSERT INTO shelf (owner, name, folded_name, revision) VALUES (@owner, @name, @folded, 0) RETURNING shelf_key",
                ("@owner", owner.Name),
                ("@name", shelf),
                ("@folded", Fold.Of(shelf))),
            shelf,
            0);

    public static void Advance(Session session, long key) =>
        session.Run("UPDATE shelf SET revision = revision + 1 WHERE shelf_key = @key", ("@key", key));
}
