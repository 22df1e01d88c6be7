namespace MixEngine.Storage;

/// <summary>What there is in a database, owner by owner: for looking through all of it.</summary>
public sealed class StoredData(Database database)
{
    /// <summary>Everybody who has anything.</summary>
    public IReadOnlyList<Owner> Owners()
    {
        using var session = Session.Asking(database);
        return session.Rows(
            "SELECT owner FROM shelf UNION SELECT owner FROM batch UNION SELECT owner FROM scheme_run UNION SELECT owner FROM made_mix ORDER BY 1",
            row => Owner.Named(row.Text(0)));
    }

    /// <summary>The numbers of an owner's scheme runs.</summary>
    public IReadOnlyList<long> Runs(Owner owner)
    {
        using var session = Session.Asking(database);
        return session.Rows("SELECT run_key FROM scheme_run WHERE owner = @owner ORDER BY run_key", row => row.Long(0), ("@owner", owner.Name));
    }

    /// <summary>The ids of an owner's batches.</summary>
    public IReadOnlyList<string> Batches(Owner owner)
    {
        using var session = Session.Asking(database);
        return session.Rows("SELECT batch_id FROM batch WHERE owner = @owner ORDER BY batch_id", row => row.Text(0), ("@owner", owner.Name));
    }

    /// <summary>What the database itself finds wrong with its file; a server keeps its own files in order.</summary>
    public IReadOnlyList<string> Damage()
    {
        using var connection = database.Connect();
        return connection is Microsoft.Data.Sqlite.SqliteConnection file ? SqliteCopy.DamageOf(file) : [];
    }
}
