using System.Globalization;
using Microsoft.Data.Sqlite;
using MixEngine.Core;

namespace MixEngine.Storage.Tests;

/// <summary>Files as every earlier version left them, opened by this one.</summary>
public sealed class SqliteMigrationTests : IDisposable
{
    // What an owner had entered when the tables of a version were the newest: rows for the tables that this version brought.
    private static readonly IReadOnlyDictionary<int, string> Entered = new Dictionary<int, string>
    {
        [1] = """
            INSERT INTO shelf VALUES (3, 'Tide', 'tide', 7), (5, 'ebb', 'ebb', 1);
            INSERT INTO paint VALUES (11, 3, 'kelp', 'kelp', 'kelp', 'shore line', 'paint', 'semi-opaque', 'satin', 22.5, 0.0, 'settles; shake'), (12, 5, 'brine', 'brine', 'brine', NULL, 'medium', NULL, NULL, NULL, NULL, NULL);
            INSERT INTO paint_pigment VALUES (11, 0, 'PY42'), (11, 1, 'PBk7'), (11, 2, 'PB15:3');
            INSERT INTO paint_color VALUES (11, '#3c4a2e', 'D65', 2);
            """,
        [2] = """
            INSERT INTO swatch VALUES (21, 3, 's1', '#8a9b7c', 'D65', 2, 'black', 'D65', 2, 'first', 37.5, 2, 'drops', 'photo', 'excluded', 'matt', '2026-11-25', 'on the palette');
            INSERT INTO swatch_part VALUES (21, 0, 'kelp', 1.0), (21, 1, 'gull white', 4.0);
            """,
        [3] = """
            INSERT INTO batch VALUES ('night', 'Tide 7', 4102444800);
            INSERT INTO batch_answer VALUES ('night', 'skiff-1', x'01', x'0203', 0), ('night', 'skiff-2', x'04', x'', 1);
            INSERT INTO scheme_run VALUES (31, 'skiffs', '2026-11-25T04:00:00.0000000+00:00', '0.1.0', 'ab12', x'05', '{"tide":{"Name":"Tide","Revision":7,"Paints":[],"Swatches":[]}}', x'06');
            INSERT INTO made_mix VALUES (41, '2026-11-25T04:30:00Z', 31, 2, '#556644', 'D50', 10, 'a little thin'), (42, '2026-11-25T04:40:00Z', NULL, NULL, NULL, NULL, NULL, NULL);
            INSERT INTO made_part VALUES (41, 0, 'kelp', 3.0, 'B7'), (42, 0, 'brine', 1.0, NULL);
            """,
        [4] = """
            INSERT INTO scheme_run VALUES (32, 'guild', 'buoys', '2026-11-25T05:00:00.0000000+00:00', '0.1.0', 'cd34', x'07', '{}', x'08');
            INSERT INTO made_mix VALUES (43, 'guild', '2026-11-25T05:30:00Z', 32, NULL, NULL, NULL, NULL, NULL);
            INSERT INTO made_part VALUES (43, 0, 'buoy yellow', 2.0, NULL);
            """,
        [5] = "",
        [6] = "INSERT INTO access_key VALUES ('k1', 'guild', 'read', 'tablet', x'09', '2026-11-25T06:00:00.0000000+00:00', NULL);",
        [7] = "INSERT INTO access_key VALUES ('k2', 'guild', 'admin', '', x'0a', '2026-11-25T07:00:00.0000000+00:00', NULL, '2026-12-25T07:00:00.0000000+00:00');",
        [8] = "",
    };

    private static readonly AccessKey[] Keys =
    [
        new("k1", Owner.Named("guild"), Scope.Read, "tablet", new DateTimeOffset(2026, 11, 25, 6, 0, 0, TimeSpan.Zero), null),
        new("k2", Owner.Named("guild"), Scope.Admin, "", new DateTimeOffset(2026, 11, 25, 7, 0, 0, TimeSpan.Zero), null, new DateTimeOffset(2026, 12, 25, 7, 0, 0, TimeSpan.Zero)),
    ];

    private readonly SqlitePlace _file = new();

    public static TheoryData<int> EveryVersion => [.. Enumerable.Range(1, SqliteDatabase.CurrentVersion)];

    public void Dispose() => _file.Dispose();

    [Theory]
    [MemberData(nameof(EveryVersion))]
    public void Nothing_entered_is_lost_and_all_of_it_belongs_to_the_owner_at_home(int version)
    {
        Build(version);
        using var database = _file.Open();
        var shelves = new ShelfStore(database);
        Assert.Equal([new ShelfSummary("ebb", 1, 1), new ShelfSummary("Tide", 7, 1)], shelves.List(Owner.Home));
        var tide = shelves.Find(Owner.Home, "tide")!;
        Assert.Equal(new StoredPaint("kelp", Paints.Kelp), Assert.Single(tide.Paints));
        Assert.Equal("brine", Assert.Single(shelves.Find(Owner.Home, "ebb")!.Paints).Id);
        if (version < 2)
        {
            return;
        }

        var swatch = Assert.Single(tide.Swatches);
        Assert.Equal("s1", swatch.Id);
        Assert.Equal(
            new SwatchEvidence
            {
                Parts = [new StoredPart("kelp", 1), new StoredPart("gull white", 4)], Color = new StoredColor("#8a9b7c", "D65", 2), Backing = new StoredColor("black", "D65", 2), Film = "first",
                ThicknessUm = 37.5, Coats = 2, Source = ReadingSource.Photo, Specular = SpecularMode.Excluded, Finish = Finish.Matt, Date = new DateOnly(2026, 11, 25), Note = "on the palette",
            },
            swatch.Evidence);
        if (version < 3)
        {
            return;
        }

        var batches = new BatchStore(database, TimeProvider.System);
        Assert.Equal((1, 1), batches.Count(Owner.Home, "night"));
        Assert.Equal([2, 3], batches.Find(Owner.Home, "night", "skiff-1")!.Answer);
        Assert.Equal([1L, 2L], new[] { "skiff-1", "skiff-2" }.Select(key => batches.Find(Owner.Home, "night", key)!.Number));
        Assert.Equal(3, Assert.Single(batches.Keep(Owner.Home, "night", [("skiff-3", [5], [6])])!).Number);
        var (run, content) = new SchemeRunStore(database, TimeProvider.System).Find(Owner.Home, 31)!.Value;
        Assert.Equal(("skiffs", "ab12", "Tide"), (run.Name, run.Digest, content.Shelves["tide"].Name));
        Assert.Equal([5], content.Request);
        var mixes = new MixLog(database).List(Owner.Home, null);
        Assert.Equal([42L, 41L], mixes.Select(mix => mix.Key));
        Assert.Equal((31L, 2, "a little thin"), (mixes[1].Run!.Value, mixes[1].Pot!.Value, mixes[1].Notes));
        Assert.Equal(new MadePart("kelp", 3, "B7"), Assert.Single(mixes[1].Parts));

        // Numbers that were told stay, and new ones come after them.
        Assert.Equal(43, new MixLog(database).Add(Owner.Home, mixes[0])!.Key);
        Assert.Equal(32, new SchemeRunStore(database, TimeProvider.System).Keep(Owner.Home, "skiffs", "1", "d", content).Run);
        if (version < 4)
        {
            return;
        }

        var guild = Owner.Named("guild");
        Assert.Equal("buoys", new SchemeRunStore(database, TimeProvider.System).Find(guild, 32)!.Value.Run.Name);
        var theirs = Assert.Single(new MixLog(database).List(guild, 32));
        Assert.Equal((43L, new MadePart("buoy yellow", 2, null)), (theirs.Key, Assert.Single(theirs.Parts)));

        // A key from before keys could expire holds without end.
        var keys = new AccessKeyStore(database);
        Assert.Equal(Keys.Take(version < 6 ? 0 : version < 7 ? 1 : 2), keys.List());
        Assert.Equal(version < 6 ? null : [9], keys.Find("k1")?.Hash);
    }

    [Theory]
    [MemberData(nameof(EveryVersion))]
    public void The_tables_are_those_of_a_new_file(int version)
    {
        Build(version);
        using (_file.Open())
        {
        }

        using var fresh = new SqlitePlace();
        using (fresh.Open())
        {
        }

        Assert.Equal(Columns(fresh.Path), Columns(_file.Path));
        Assert.Equal("ok", Raw(_file.Path, "PRAGMA integrity_check")[0]);
        Assert.Empty(Raw(_file.Path, "PRAGMA foreign_key_check"));
    }

    [Fact]
    public void Rows_that_belong_to_nothing_stop_it_and_nothing_is_changed()
    {
        Build(1);
        Raw(_file.Path, "PRAGMA foreign_keys = OFF; INSERT INTO paint_pigment VALUES (99, 0, 'PR101')");
        Assert.Contains("damaged: 1 of its rows", Assert.Throws<UnusableDatabaseException>(_file.Open).Message);
        Assert.Equal(["1"], Raw(_file.Path, "SELECT version FROM schema_version"));
        Assert.Equal(["2"], Raw(_file.Path, "SELECT count(*) FROM shelf"));
    }

    // A version that is added without rows here fails its own tests.
    private void Build(int version)
    {
        for (var step = 1; step <= version; step++)
        {
            Raw(_file.Path, SqliteMigrations.Steps[step - 1]);
            if (Entered.GetValueOrDefault(step) is { Length: > 0 } rows)
            {
                Raw(_file.Path, rows);
            }
        }

        Raw(_file.Path, $"CREATE TABLE schema_version (version INTEGER NOT NULL) STRICT; INSERT INTO schema_version VALUES ({version})");
        Assert.True(Entered.ContainsKey(version), $"There are no rows of version {version}.");
    }

    private static IReadOnlyList<string> Columns(string path) =>
        Raw(path, "SELECT m.name || '.' || c.name || ' ' || c.type || ' ' || c.\"notnull\" || ' ' || c.pk FROM sqlite_master m, pragma_table_info(m.name) c WHERE m.type = 'table' ORDER BY 1");

    private static List<string> Raw(string path, string sql)
    {
        using var connection = new SqliteConnection($"Data Source={path};Pooling=False;Foreign Keys=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        using var reader = command.ExecuteReader();
        var rows = new List<string>();
        while (reader.Read())
        {
            rows.Add(Convert.ToString(reader.GetValue(0), CultureInfo.InvariantCulture)!);
        }

        return rows;
    }
}
