using System.Text;

namespace MixEngine.Storage.Tests;

/// <summary>Whatever statement of a change fails, the change happened wholly or not at all.</summary>
public abstract class FailureContract : StoreContract
{
    private static readonly SwatchEvidence Swatch = new() { Parts = [new StoredPart("kelp", 1), new StoredPart("gull white", 4)], Color = new StoredColor("#8a9b7c", "D65", 2) };

    private static readonly Dictionary<string, Action<Database>> Changes = new()
    {
        ["import of a shelf"] = database => new ShelfStore(database).Import(Owner.Home, "tide", [Paints.Kelp with { Notes = "other" }, Paints.SeaLettuce, Paints.Brine], dryRun: false),
        ["import of a new shelf"] = database => new ShelfStore(database).Import(Owner.Home, "ebb", [Paints.Kelp, Paints.SeaLettuce], dryRun: false),
        ["removal of a paint"] = database => new ShelfStore(database).Remove(Owner.Home, "tide", "kelp"),
        ["import of swatches"] = database => new SwatchStore(database).Import(Owner.Home, "tide", [(null, Swatch), (null, Swatch with { Note = "second" })], dryRun: false),
        ["correction of a swatch"] = database => new SwatchStore(database).Correct(Owner.Home, "tide", new StoredSwatch("s1", Swatch with { Note = "corrected" })),
        ["removal of a swatch"] = database => new SwatchStore(database).Remove(Owner.Home, "tide", "s1"),
        ["opening of a batch"] = database => new BatchStore(database, TimeProvider.System).Open(Owner.Home, "day", "tide 1"),
        ["answers of a batch"] = database => new BatchStore(database, TimeProvider.System).Keep(Owner.Home, "night", [("2", [1], [11]), ("3", [2], [12])]),
        ["acknowledgement of answers"] = database => new BatchStore(database, TimeProvider.System).Acknowledge(Owner.Home, "night", ["0", "1"]),
        ["discarding of a batch"] = database => new BatchStore(database, TimeProvider.System).Discard(Owner.Home, "night"),
        ["scheme run"] = database => new SchemeRunStore(database, TimeProvider.System).Keep(Owner.Home, "skiffs", "1", "d", new SchemeRunContent([1], new Dictionary<string, StoredShelf>(), [2]), new RepeatableRequest("run", [1])),
        ["made mix"] = database => new MixLog(database).Add(Owner.Home, new MadeMix(0, "2026-11-25T04:00:00Z", null, null, [new MadePart("kelp", 3, null), new MadePart("brine", 1, null)], null, null), new RepeatableRequest("mix", [1])),
        ["revocation of a key"] = database => new AccessKeyStore(database).Revoke("k1", new DateTimeOffset(2026, 11, 25, 5, 0, 0, TimeSpan.Zero)),
    };

    protected FailureContract(DatabasePlace place)
        : base(place)
    {
        new ShelfStore(Database).Import(Owner.Home, "tide", [Paints.Kelp], dryRun: false);
        new SwatchStore(Database).Import(Owner.Home, "tide", [(null, Swatch with { Note = "first" })], dryRun: false);
        new AccessKeyStore(Database).Add(new AccessKey("k1", Owner.Home, Scope.Read, "tablet", new DateTimeOffset(2026, 11, 25, 4, 0, 0, TimeSpan.Zero), null), [1]);
        var batches = new BatchStore(Database, TimeProvider.System);
        batches.Open(Owner.Home, "night", "tide 1");
        batches.Keep(Owner.Home, "night", [("0", [1], [11]), ("1", [2], [12])]);
    }

    public static TheoryData<string> Every => [.. Changes.Keys];

    [Theory]
    [MemberData(nameof(Every))]
    public void A_change_of_which_a_statement_fails_did_not_happen(string change)
    {
        var before = Everything();
        for (var failing = 1; ; failing++)
        {
            var database = new FailingDatabase(Database, failing);
            try
            {
                Changes[change](database);
            }
            catch (FailingDatabase.Fault)
            {
                Assert.Equal(before, Everything());
                continue;
            }

            // It came to its end without meeting the failure: then it happened, and it has at least a statement and a commit.
            Assert.False(database.Failed);
            Assert.NotEqual(before, Everything());
            Assert.True(failing > 2);
            return;
        }
    }

    [Theory]
    [MemberData(nameof(Every))]
    public void A_change_whose_commit_was_done_and_not_heard_of_may_be_asked_again(string change)
    {
        for (var failing = 2; ; failing++)
        {
            var before = Everything();
            var database = new FailingDatabase(Database, failing, afterCommit: true);
            try
            {
                Changes[change](database);
                return;
            }
            catch (FailingDatabase.Fault)
            {
                var after = Everything();
                if (after != before)
                {
                    // Again, as a client would: nothing is there twice.
                    Changes[change](Database);
                    Assert.Equal(Untimed(after), Untimed(Everything()));
                    return;
                }
            }
        }
    }

    private static string Untimed(string everything) => string.Join('\n', everything.Split('\n').Where(line => !line.StartsWith("batch:", StringComparison.Ordinal)));

    private string Everything()
    {
        var text = new StringBuilder();
        using var connection = Database.Connect();
        foreach (var table in new[] { "shelf", "paint", "paint_pigment", "paint_color", "swatch", "swatch_part", "batch", "batch_answer", "scheme_run", "made_mix", "made_part", "access_key" })
        {
            using var command = connection.CreateCommand();
            command.CommandText = $"SELECT * FROM {table} ORDER BY 1, 2, 3";
            using var reader = command.ExecuteReader();
            while (reader.Read())
            {
                var values = Enumerable.Range(0, reader.FieldCount).Select(column => reader.GetValue(column) is byte[] bytes ? Convert.ToHexString(bytes) : $"{reader.GetValue(column)}");
                text.Append(table).Append(": ").AppendJoin('|', values).Append('\n');
            }
        }

        return text.ToString();
    }
}
