using Npgsql;

namespace MixEngine.Storage.Tests;

/// <summary>Databases as every earlier version left them, opened by this one.</summary>
public sealed class PostgresMigrationTests(PostgresServer server)
{
    // What owners had entered when the tables of a version were the newest: rows for the tables that this version brought.
    private static readonly IReadOnlyDictionary<int, string> Entered = new Dictionary<int, string>
    {
        [1] = """
            INSERT INTO shelf (owner, name, folded_name, revision) VALUES ('home', 'Tide', 'tide', 7);
            INSERT INTO paint (shelf_key, id, name, folded_name, kind) VALUES (1, 'kelp', 'kelp', 'kelp', 'paint');
            INSERT INTO paint_color VALUES (1, '#3c4a2e', 'D65', 2);
            INSERT INTO batch VALUES ('guild', 'night', 'Tide 7', 4102444800);
            INSERT INTO batch_answer VALUES ('guild', 'night', 'skiff-1', '\x01', '\x0203', 0);
            INSERT INTO scheme_run (owner, name, made, engine_version, digest, request, shelves, answer)
                VALUES ('home', 'skiffs', '2026-11-25T04:00:00.0000000+00:00', '0.1.0', 'ab12', '\x05', '{}', '\x06'),
                ('guild', 'buoys', '2026-11-25T05:00:00.0000000+00:00', '0.1.0', 'cd34', '\x07', '{}', '\x08');
            INSERT INTO made_mix (owner, made, run_key) VALUES ('home', '2026-11-25T04:30:00Z', 1), ('guild', '2026-11-25T05:30:00Z', 2);
            INSERT INTO made_part VALUES (1, 0, 'kelp', 3.0, 'B7'), (2, 0, 'buoy yellow', 2.0, NULL);
            """,
        [2] = "SELECT 1",
        [3] = @"INSERT INTO access_key VALUES ('k1', 'guild', 'read', 'tablet', '\x09', '2026-11-25T06:00:00.0000000+00:00', NULL)",
        [4] = @"INSERT INTO access_key VALUES ('k2', 'guild', 'admin', '', '\x0a', '2026-11-25T07:00:00.0000000+00:00', NULL, '2026-12-25T07:00:00.0000000+00:00')",
        [5] = "SELECT 1",
    };

    public static TheoryData<int> EveryVersion => [.. Enumerable.Range(1, PostgresDatabase.CurrentVersion)];

    [Theory]
    [MemberData(nameof(EveryVersion))]
    public void Nothing_entered_is_lost_and_numbers_that_were_told_stay(int version)
    {
        using var database = Built(version).Open();
        Assert.Equal("#3c4a2e", Assert.Single(new ShelfStore(database).Find(Owner.Home, "tide")!.Paints).Evidence.Color!.Text);
        var guild = Owner.Named("guild");
        var batches = new BatchStore(database, TimeProvider.System);
        var skiff = batches.Find(guild, "night", "skiff-1")!;
        Assert.Equal([2, 3], skiff.Answer);
        Assert.Equal(1, skiff.Number);
        Assert.Equal(2, Assert.Single(batches.Keep(guild, "night", [("skiff-2", [5], [6])])!).Number);
        var runs = new SchemeRunStore(database, TimeProvider.System);
        Assert.Equal(("skiffs", "buoys"), (runs.Find(Owner.Home, 1)!.Value.Run.Name, runs.Find(guild, 2)!.Value.Run.Name));
        var mixes = new MixLog(database);
        Assert.Equal(new MadePart("kelp", 3, "B7"), Assert.Single(Assert.Single(mixes.List(Owner.Home, 1)).Parts));
        var theirs = Assert.Single(mixes.List(guild, 2));
        Assert.Equal(new MadePart("buoy yellow", 2, null), Assert.Single(theirs.Parts));
        Assert.Equal((2L, 3L), (mixes.Add(Owner.Home, theirs with { Run = 1 })!.Key, mixes.Add(guild, theirs)!.Key));

        // A key from before keys could expire holds without end.
        Assert.Equal(new[] { ("k1", null), ("k2", (DateTimeOffset?)new DateTimeOffset(2026, 12, 25, 7, 0, 0, TimeSpan.Zero)) }.Take(version < 3 ? 0 : version < 4 ? 1 : 2),
            new AccessKeyStore(database).List().Select(key => (key.Id, key.Expires)));
    }

    [Theory]
    [MemberData(nameof(EveryVersion))]
    public void The_tables_are_those_of_a_new_database(int version)
    {
        var (old, fresh) = (Built(version), server.NewDatabase());
        old.Open().Dispose();
        fresh.Open().Dispose();
        Assert.Equal(Shape(fresh), Shape(old));
    }

    // A version that is added without rows here fails its own tests.
    private PostgresPlace Built(int version)
    {
        var place = server.NewDatabase();
        using var connection = new NpgsqlConnection(place.ConnectionString + ";Pooling=False");
        connection.Open();
        for (var step = 1; step <= version; step++)
        {
            Assert.True(Entered.ContainsKey(step), $"There are no rows of version {step}.");
            Run(connection, PostgresMigrations.Steps[step - 1]);
            Run(connection, Entered[step]);
        }

        Run(connection, $"CREATE TABLE schema_version (version BIGINT NOT NULL); INSERT INTO schema_version VALUES ({version})");
        return place;
    }

    private static List<string> Shape(PostgresPlace place)
    {
        using var connection = new NpgsqlConnection(place.ConnectionString + ";Pooling=False");
        connection.Open();
        using var command = new NpgsqlCommand(
            """
            SELECT table_name || '.' || column_name || ' ' || data_type || ' ' || is_nullable || ' ' || is_identity || ' ' || coalesce(collation_name, '')
            FROM information_schema.columns WHERE table_schema = 'public'
            UNION ALL SELECT conrelid::regclass || ' ' || pg_get_constraintdef(oid) FROM pg_constraint WHERE connamespace = 'public'::regnamespace
            UNION ALL SELECT indexdef FROM pg_indexes WHERE schemaname = 'public'
            ORDER BY 1
            """,
            connection);
        using var reader = command.ExecuteReader();
        var rows = new List<string>();
        while (reader.Read())
        {
            rows.Add(reader.GetString(0));
        }

        return rows;
    }

    private static void Run(NpgsqlConnection connection, string sql)
    {
        using var command = new NpgsqlCommand(sql, connection);
        command.ExecuteNonQuery();
    }
}
