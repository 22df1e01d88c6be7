using System.Security.Cryptography;

namespace MixEngine.Storage;

/// <summary>What became of one item of a batch.</summary>
/// <param name="ItemHash">Tells whether the same item is meant when its key comes again.</param>
/// <param name="Answer">The answer as it was sent; empty once it is acknowledged.</param>
/// <param name="Acknowledged">Whether the asker has it safe.</param>
/// <param name="Number">Its place in the order in which the batch's answers were finished; another batch of the same id, opened after this one was discarded, has other numbers.</param>
public sealed record StoredAnswer(byte[] ItemHash, byte[] Answer, bool Acknowledged, long Number);

/// <summary>Finished answers of batches, kept until they are acknowledged. Safe to use from several threads.</summary>
/// <remarks>Of an acknowledged answer its key stays, so that the item is never solved again under it.</remarks>
public sealed class BatchStore(Database database, TimeProvider clock)
{
    /// <summary>Batches that nobody touched for so long are forgotten when another is opened: 30 days.</summary>
    public static readonly TimeSpan Forgotten = TimeSpan.FromDays(30);

    /// <summary>The numbers of one batch's answers differ only in so many of their lowest bits.</summary>
    public const int NumberBits = 32;

    /// <summary>Opens a batch, new or known.</summary>
    /// <param name="owner">Whose batch.</param>
    /// <param name="batch">Its id.</param>
    /// <param name="shelfState">The shelf and its revision that answers hold for now.</param>
    /// <returns>The state under which it was first opened.</returns>
    public string Open(Owner owner, string batch, string shelfState)
    {
        using var session = Session.Writing(database, owner, Claim(batch));
        session.Run("DELETE FROM batch WHERE owner = @owner AND touched < @before", ("@owner", owner.Name), ("@before", Now() - (long)Forgotten.TotalSeconds));
        session.Run(
            "INSERT INTO batch (owner, batch_id, shelf_state, touched, last_number) VALUES (@owner, @batch, @state, @now, @before) ON CONFLICT (owner, batch_id) DO UPDATE SET touched = @now",
            ("@owner", owner.Name), ("@batch", batch), ("@state", shelfState), ("@now", Now()), ("@before", (long)RandomNumberGenerator.GetInt32(1, int.MaxValue) << NumberBits));
        var state = session.Rows("SELECT shelf_state FROM batch WHERE owner = @owner AND batch_id = @batch", row => row.Text(0), ("@owner", owner.Name), ("@batch", batch))[0];
        session.Commit();
        return state;
    }

    /// <summary>How many answers are kept, and how many were acknowledged.</summary>
    public (int Kept, int Acknowledged) Count(Owner owner, string batch)
    {
        using var session = Session.Reading(database);
        return (
            (int)session.Number("SELECT count(*) FROM batch_answer WHERE owner = @owner AND batch_id = @batch AND acknowledged = 0", ("@owner", owner.Name), ("@batch", batch)),
            (int)session.Number("SELECT count(*) FROM batch_answer WHERE owner = @owner AND batch_id = @batch AND acknowledged = 1", ("@owner", owner.Name), ("@batch", batch)));
    }

    /// <summary>The answers that are kept, a page at a time in the order of their keys.</summary>
    /// <param name="owner">Whose batch.</param>
    /// <param name="batch">The batch.</param>
    /// <param name="after">The last key of the page before; null: the first page.</param>
    /// <param name="most">How many.</param>
    public IReadOnlyList<(string Key, long Number, byte[] Answer)> Kept(Owner owner, string batch, string? after, int most)
    {
        using var session = Session.Asking(database);
        return session.Rows(
            "SELECT item_key, number, answer FROM batch_answer WHERE owner = @owner AND batch_id = @batch AND acknowledged = 0 AND item_key > @after ORDER BY item_key LIMIT @most",
            row => (row.Text(0), row.Long(1), row.Bytes(2)),
            ("@owner", owner.Name), ("@batch", batch), ("@after", after ?? ""), ("@most", most));
    }

    /// <summary>What is known of an item; null: it is not finished.</summary>
    public StoredAnswer? Find(Owner owner, string batch, string key)
    {
        using var session = Session.Asking(database);
        return Find(session, owner, batch, key);
    }

    /// <summary>
    /// Keeps finished answers, all of them or none. A key that is known already keeps its first answer: whoever finished it later, on whatever replica, learns here what to send
    /// in place of its own.
    /// </summary>
    /// <returns>What stands under each key now, in the order given; null where there is no such batch: it may have been discarded since it was opened.</returns>
    public IReadOnlyList<StoredAnswer>? Keep(Owner owner, string batch, IReadOnlyCollection<(string Key, byte[] ItemHash, byte[] Answer)> answers)
    {
        using var session = Session.Writing(database, owner, Claim(batch));
        if (session.Rows("SELECT last_number FROM batch WHERE owner = @owner AND batch_id = @batch", row => row.Long(0), ("@owner", owner.Name), ("@batch", batch)) is not [var number])
        {
            return null;
        }

        var standing = new List<StoredAnswer>(answers.Count);
        foreach (var (key, hash, answer) in answers)
        {
            if (Find(session, owner, batch, key) is { } first)
            {
                standing.Add(first);
                continue;
            }

            session.Run(
                "INSERT INTO batch_answer (owner, batch_id, item_key, item_hash, answer, acknowledged, number) VALUES (@owner, @batch, @key, @hash, @answer, 0, @number)",
                ("@owner", owner.Name), ("@batch", batch), ("@key", key), ("@hash", hash), ("@answer", answer), ("@number", ++number));
            standing.Add(new StoredAnswer(hash, answer, Acknowledged: false, number));
        }

        session.Run(
            "UPDATE batch SET touched = @now, last_number = @number WHERE owner = @owner AND batch_id = @batch",
            ("@owner", owner.Name), ("@batch", batch), ("@now", Now()), ("@number", number));
        session.Commit();
        return standing;
    }

    /// <summary>Lets go of answers that are safe with the asker; keys that are not known are passed over.</summary>
    public void Acknowledge(Owner owner, string batch, IEnumerable<string> keys)
    {
        using var session = Session.Writing(database, owner, Claim(batch));
        foreach (var key in keys)
        {
            session.Run("UPDATE batch_answer SET acknowledged = 1, answer = @nothing WHERE owner = @owner AND batch_id = @batch AND item_key = @key", ("@owner", owner.Name), ("@batch", batch), ("@key", key), ("@nothing", Array.Empty<byte>()));
        }

        session.Commit();
    }

    /// <summary>Forgets a batch; the number of answers that were kept, null where there is no such batch.</summary>
    public int? Discard(Owner owner, string batch)
    {
        using var session = Session.Writing(database, owner, Claim(batch));
        if (!IsThere(session, owner, batch))
        {
            return null;
        }

        var kept = session.Number("SELECT count(*) FROM batch_answer WHERE owner = @owner AND batch_id = @batch AND acknowledged = 0", ("@owner", owner.Name), ("@batch", batch));
        session.Run("DELETE FROM batch WHERE owner = @owner AND batch_id = @batch", ("@owner", owner.Name), ("@batch", batch));
        session.Commit();
        return (int)kept;
    }

    private static StoredAnswer? Find(Session session, Owner owner, string batch, string key) => session.Rows(
        "SELECT item_hash, answer, acknowledged, number FROM batch_answer WHERE owner = @owner AND batch_id = @batch AND item_key = @key",
        row => new StoredAnswer(row.Bytes(0), row.Bytes(1), row.Long(2) != 0, row.Long(3)),
        ("@owner", owner.Name), ("@batch", batch), ("@key", key)).FirstOrDefault();

    private static bool IsThere(Session session, Owner owner, string batch) =>
        session.Number("SELECT count(*) FROM batch WHERE owner = @owner AND batch_id = @batch", ("@owner", owner.Name), ("@batch", batch)) > 0;

    private static string Claim(string batch) => $"batch {batch}";

    private long Now() => clock.GetUtcNow().ToUnixTimeSeconds();
}
