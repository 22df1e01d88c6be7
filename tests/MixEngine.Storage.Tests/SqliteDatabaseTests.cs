using Microsoft.Data.Sqlite;

namespace MixEngine.Storage.Tests;

public sealed class SqliteDatabaseTests : IDisposable
{
    private readonly SqlitePlace _file = new();

    public void Dispose() => _file.Dispose();

    [Fact]
    public void A_new_file_gets_the_current_tables_a_write_ahead_log_and_foreign_keys()
    {
        using var database = _file.Open();
        Assert.Equal((long)SqliteDatabase.CurrentVersion, Raw("SELECT version FROM schema_version"));
        Assert.Equal("wal", Raw("PRAGMA journal_mode"));
        using var connection = database.Connect();
        using var command = connection.CreateCommand();
        command.CommandText = "PRAGMA foreign_keys";
        Assert.Equal(1L, command.ExecuteScalar());

        // FULL: what was acknowledged is on the disk, not only on its way there.
        command.CommandText = "PRAGMA synchronous";
        Assert.Equal(2L, command.ExecuteScalar());
    }

    [Fact]
    public void What_was_written_is_there_after_opening_again()
    {
        using (var database = _file.Open())
        {
            new ShelfStore(database).Import(Owner.Home, "tide", [Paints.Kelp], dryRun: false);
        }

        using var again = _file.Open();
        Assert.Equal(Paints.Kelp, Assert.Single(new ShelfStore(again).Find(Owner.Home, "tide")!.Paints).Evidence);
    }

    [Fact]
    public void The_count_of_changes_is_another_after_every_change_by_anybody_and_stays_otherwise()
    {
        using var database = _file.Open();
        using var other = _file.Open();
        var (own, others) = (new ShelfStore(database), new ShelfStore(other));
        var counted = new HashSet<long>();
        void Moved() => Assert.True(counted.Add(database.ChangeCount()!.Value));
        Moved();
        for (var i = 0; i < 300; i++)
        {
            others.Import(Owner.Home, $"tide-{i % 7}", [Paints.Kelp with { Notes = $"{i}" }], dryRun: false);
            Moved();
            own.Import(Owner.Home, "ebb", [Paints.Kelp with { Notes = $"{i}" }], dryRun: false);
            Moved();
            Raw($"UPDATE shelf SET revision = revision + 1 WHERE name = 'tide-{i % 7}'");
            Moved();
            if (i % 50 == 0)
            {
                // The log is emptied, and its index begins anew.
                Raw("PRAGMA wal_checkpoint(TRUNCATE)");
                counted.Add(database.ChangeCount()!.Value);
            }

            var before = database.ChangeCount();
            Assert.Equal($"{i}", own.Find(Owner.Home, "ebb")!.Paints[0].Evidence.Notes);
            others.Import(Owner.Home, "ebb", [Paints.Kelp], dryRun: true);
            Assert.Equal(before, database.ChangeCount());
        }
    }

    [Fact]
    public void A_count_that_is_asked_for_while_the_file_is_let_go_of_is_none()
    {
        for (var i = 0; i < 20; i++)
        {
            var database = _file.Open();
            var asking = new Thread(() =>
            {
                while (database.ChangeCount() is not null)
                {
                }
            });
            asking.Start();
            Thread.Sleep(1);
            database.Dispose();
            asking.Join();
            Assert.Null(database.ChangeCount());
        }
    }

    [Fact]
    public async Task Who_was_told_a_count_before_a_change_is_told_another_after_it()
    {
        using var database = _file.Open();
        using var other = _file.Open();
        var (seen, written) = (new ShelfStore(database), new ShelfStore(other));
        var cancellation = TestContext.Current.CancellationToken;
        var writing = Task.Run(
            () =>
            {
                for (var i = 0; i < 400; i++)
                {
                    written.Import(Owner.Home, "tide", [Paints.Kelp with { Notes = $"{i}" }], dryRun: false);
                }
            },
            cancellation);

        // Where the count is the same before and after, so is what lies between.
        var (checks, same) = (0, 0);
        while (!writing.IsCompleted)
        {
            var before = database.ChangeCount();
            var first = seen.RevisionOf(Owner.Home, "tide");
            var second = seen.RevisionOf(Owner.Home, "tide");
            checks++;
            if (before is not null && before == database.ChangeCount())
            {
                Assert.Equal(first, second);
                same++;
            }
        }

        await writing;
        Assert.True(same > 0, $"None of {checks} checks fell between two changes.");
    }

    [Fact]
    public void A_database_of_a_newer_program_is_refused_and_left_untouched()
    {
        using (_file.Open())
        {
        }

        Raw("UPDATE schema_version SET version = 4711");
        var before = File.ReadAllBytes(_file.Path);
        var refusal = Assert.Throws<UnusableDatabaseException>(_file.Open);
        Assert.Contains("newer MixEngine", refusal.Message);
        Assert.Contains("4711", refusal.Message);
        Assert.Contains(_file.Path, refusal.Message);
        Assert.Equal(before, File.ReadAllBytes(_file.Path));
    }

    [Fact]
    public void A_file_that_is_no_database_is_refused_and_left_untouched()
    {
        var letter = "Dear sea, this is not a database, only a long letter that begins like one does not.\n"u8.ToArray();
        File.WriteAllBytes(_file.Path, letter);
        Assert.Contains("not a MixEngine database", Assert.Throws<UnusableDatabaseException>(_file.Open).Message);
        Assert.Equal(letter, File.ReadAllBytes(_file.Path));
    }

    [Fact]
    public void The_database_of_another_program_is_refused_and_left_untouched()
    {
        Raw("CREATE TABLE knots (name TEXT)");
        var before = File.ReadAllBytes(_file.Path);
        Assert.Contains("another program", Assert.Throws<UnusableDatabaseException>(_file.Open).Message);
        Assert.Equal(before, File.ReadAllBytes(_file.Path));
    }

    [Fact]
    public void A_file_that_cannot_be_opened_is_named()
    {
        Directory.CreateDirectory(_file.Path);
        Assert.Contains(_file.Path, Assert.Throws<UnusableDatabaseException>(_file.Open).Message);
    }

    [Fact]
    public async Task Many_that_start_at_once_make_the_tables_once()
    {
        await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Run(() =>
        {
            using var database = _file.Open();
            new ShelfStore(database).List(Owner.Home);
        })));
        Assert.Equal(1L, Raw("SELECT count(*) FROM schema_version"));
    }

    private object? Raw(string sql)
    {
        using var connection = new SqliteConnection($"Data Source={_file.Path};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        return command.ExecuteScalar();
    }
}
