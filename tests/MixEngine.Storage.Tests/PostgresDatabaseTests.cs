using Npgsql;

namespace MixEngine.Storage.Tests;

public sealed class PostgresDatabaseTests(PostgresServer server)
{
    [Fact]
    public void What_was_written_is_there_after_opening_again()
    {
        var place = server.NewDatabase();
        using (var database = place.Open())
        {
            new ShelfStore(database).Import(Owner.Home, "tide", [Paints.Kelp], dryRun: false);
        }

        using var again = place.Open();
        again.Ask();
        Assert.Equal(Paints.Kelp, Assert.Single(new ShelfStore(again).Find(Owner.Home, "tide")!.Paints).Evidence);
    }

    [Fact]
    public async Task Many_that_start_at_once_make_the_tables_once()
    {
        var place = server.NewDatabase();
        await Task.WhenAll(Enumerable.Range(0, 8).Select(number => Task.Run(() =>
        {
            using var database = place.Open();
            new ShelfStore(database).Import(Owner.Home, "tide", [Paints.Kelp with { Name = $"kelp {number}" }], dryRun: false);
        })));
        using var last = place.Open();
        Assert.Equal(8, new ShelfStore(last).Find(Owner.Home, "tide")!.Paints.Count);
        Assert.Equal(8, new ShelfStore(last).RevisionOf(Owner.Home, "tide"));
    }

    [Fact]
    public void A_database_of_a_newer_program_is_refused()
    {
        var place = server.NewDatabase();
        place.Open().Dispose();
        Raw(place, "UPDATE schema_version SET version = 4711");
        var refusal = Assert.Throws<UnusableDatabaseException>(place.Open).Message;
        Assert.Contains("newer MixEngine (tables of version 4711", refusal);
        Assert.Equal(4711L, Raw(place, "SELECT version FROM schema_version"));
    }

    [Theory]
    [InlineData("CREATE TABLE knots (name TEXT)")]
    [InlineData("CREATE TABLE schema_version (version TEXT)")]
    public void The_tables_of_another_program_are_left_alone(string other)
    {
        var place = server.NewDatabase();
        Raw(place, other);
        Assert.Contains("another program", Assert.Throws<UnusableDatabaseException>(place.Open).Message);
        Assert.Equal(1L, Raw(place, "SELECT count(*) FROM pg_tables WHERE schemaname = 'public'"));
    }

    [Fact]
    public void Beside_another_program_it_keeps_to_a_schema_of_its_own()
    {
        var place = server.NewDatabase();
        Raw(place, "CREATE TABLE shelf (books TEXT)");
        Raw(place, "CREATE SCHEMA mixing");
        using var database = PostgresDatabase.Open(place.ConnectionString + ";Search Path=mixing");
        new ShelfStore(database).Import(Owner.Home, "tide", [Paints.Kelp], dryRun: false);
        Assert.Equal(1L, Raw(place, "SELECT count(*) FROM mixing.shelf"));
        Assert.Equal(0L, Raw(place, "SELECT count(*) FROM public.shelf"));
    }

    [Fact]
    public void Text_that_cannot_hold_every_name_is_refused()
    {
        server.NewDatabase();
        server.Run("CREATE DATABASE latin ENCODING 'LATIN1' LOCALE 'C' LOCALE_PROVIDER libc TEMPLATE template0");
        Assert.Contains("LATIN1", Refusal(server.ConnectionString("latin")));
    }

    [Fact]
    public void Whoever_may_not_come_in_is_told_so_without_the_password()
    {
        var place = server.NewDatabase();
        Raw(place, $"DROP ROLE IF EXISTS {PostgresServer.Guarded}");
        Raw(place, $"CREATE ROLE {PostgresServer.Guarded} LOGIN PASSWORD 'right kelp'");
        var guarded = new NpgsqlConnectionStringBuilder(place.ConnectionString) { Username = PostgresServer.Guarded, Password = "wrong wrack" };
        var wrong = Refusal(guarded.ToString());
        Assert.Contains($"does not let the user '{PostgresServer.Guarded}' in", wrong);
        Assert.DoesNotContain("wrack", wrong);

        // Let in, but not allowed to make tables.
        guarded.Password = "right kelp";
        var powerless = Refusal(guarded.ToString());
        Assert.Contains("may not make tables there; let that user own the database", powerless);
        Raw(place, $"ALTER DATABASE {guarded.Database} OWNER TO {PostgresServer.Guarded}");
        using var own = PostgresDatabase.Open(guarded.ToString());
        Assert.DoesNotContain("kelp", own.Place);
    }

    [Fact]
    public void A_database_that_is_not_there_is_named() =>
        Assert.Contains("createdb no_such_sea", Refusal(new NpgsqlConnectionStringBuilder(server.NewDatabase().ConnectionString) { Database = "no_such_sea" }.ToString()));

    [Fact]
    public void A_server_that_is_away_is_told()
    {
        Assert.Contains("nobody answers there", Refusal("Host=127.0.0.1;Port=1;Database=sea;Username=crab;Password=secret pearl"));
        Assert.DoesNotContain("pearl", Refusal("Host=127.0.0.1;Port=1;Database=sea;Username=crab;Password=secret pearl"));
    }

    [Theory]
    [InlineData("a pearl", "cannot be read")]
    [InlineData("Host=sea;Port=pearl;Database=x", "cannot be read")]
    [InlineData("Host=sea;Shell=pearl", "cannot be read")]
    [InlineData("Host=sea;Password=pearl", "names no Database")]
    [InlineData("Database=pearl", "names no Host")]
    public void Settings_that_cannot_be_read_are_told_without_being_shown(string settings, string words)
    {
        Assert.Contains(words, PostgresDatabase.FaultOf(settings));
        Assert.DoesNotContain("pearl", PostgresDatabase.FaultOf(settings));
        Assert.Throws<ArgumentException>(() => PostgresDatabase.Open(settings));
    }

    [Fact]
    public async Task Whoever_waits_for_others_too_long_is_told_so()
    {
        var place = server.NewDatabase();
        using var database = PostgresDatabase.Open(place.ConnectionString + ";Options=-c lock_timeout=100ms");
        using var holding = Session.Writing(database, Owner.Home, ShelfRow.Claim("Tide"));
        var fault = await Assert.ThrowsAnyAsync<System.Data.Common.DbException>(() => Task.Run(() => new ShelfStore(database).Import(Owner.Home, "tide", [Paints.Kelp], dryRun: false)));
        Assert.True(database.TroubleOf(fault)!.Passes);

        // Other shelves, and those of others, wait for nobody.
        new ShelfStore(database).Import(Owner.Home, "ebb", [Paints.Kelp], dryRun: false);
        new ShelfStore(database).Import(Owner.Named("guild"), "tide", [Paints.Kelp], dryRun: false);
    }

    [Fact]
    public async Task Requests_live_through_a_restart_of_the_server()
    {
        using var own = new PostgresServer();
        var place = own.NewDatabase();
        using var database = place.Open();
        var shelves = new ShelfStore(database);
        shelves.Import(Owner.Home, "tide", [Paints.Kelp], dryRun: false);
        own.Stop();
        Assert.True(database.TroubleOf(Assert.ThrowsAny<System.Data.Common.DbException>(database.Ask))!.Passes);

        // Asked while it is away, answered when it is back.
        var (read, written) = (
            Task.Run(() => shelves.Find(Owner.Home, "tide")!.Paints.Count),
            Task.Run(() => shelves.Import(Owner.Home, "ebb", [Paints.Brine], dryRun: false).Added.Count));
        await Task.Delay(300, TestContext.Current.CancellationToken);
        own.NewDatabase();
        Assert.Equal((1, 1), (await read, await written));
    }

    [Fact]
    public void A_session_that_vanished_leaves_nothing_behind()
    {
        var place = server.NewDatabase();
        using var database = place.Open();
        var shelves = new ShelfStore(database);
        shelves.Import(Owner.Home, "tide", [Paints.Kelp], dryRun: false);
        using (var vanishing = Session.Writing(database, Owner.Home, ShelfRow.Claim("tide")))
        {
            vanishing.Run("DELETE FROM paint");
            Raw(place, "SELECT count(pg_terminate_backend(pid)) FROM pg_stat_activity WHERE state = 'idle in transaction' AND datname = current_database()");
        }

        Assert.Equal("kelp", Assert.Single(shelves.Find(Owner.Home, "tide")!.Paints).Id);
        shelves.Import(Owner.Home, "tide", [Paints.Brine], dryRun: false);
    }

    private static string Refusal(string connectionString) => Assert.Throws<UnusableDatabaseException>(() => PostgresDatabase.Open(connectionString)).Message;

    private static object? Raw(PostgresPlace place, string sql)
    {
        using var connection = new NpgsqlConnection(place.ConnectionString + ";Pooling=False");
        connection.Open();
        using var command = new NpgsqlCommand(sql, connection);
        return command.ExecuteScalar();
    }
}
