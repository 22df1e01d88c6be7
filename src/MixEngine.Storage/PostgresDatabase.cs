using System.Data;
using System.Data.Common;
using System.Globalization;
using Npgsql;

namespace MixEngine.Storage;

/// <summary>A database of PostgreSQL, shared by as many services as like.</summary>
public sealed class PostgresDatabase : Database
{
    private const string Example = "Host=db.example;Database=mixengine;Username=mixengine";

    // Connections of one service; a server serves 100 where nobody says otherwise.
    private const int MostConnections = 20;

    private const string IdleInTransactionSessionTimeout = "25P03";

    private const string Substitute = "\u001a", SubstituteItself = Substitute + "1", Zero = "\0", SubstituteZero = Substitute + "0";

    private readonly NpgsqlDataSource _source;

    private PostgresDatabase(string place, NpgsqlDataSource source)
        : base(place) => _source = source;

    /// <summary>The version of the tables that this program writes.</summary>
    public static int CurrentVersion => PostgresMigrations.Steps.Count;

    // Within one transaction a lock of the database, so that no server's death leaves it behind. Two claims that hash alike wait for each other, and no more.
    internal override string? ClaimStatement => "SELECT pg_advisory_xact_lock(hashtextextended(@claim, 0))";

    /// <summary>What is wrong with a connection string, in plain words and without its values; null: nothing.</summary>
    public static string? FaultOf(string connectionString)
    {
        try
        {
            return new NpgsqlConnectionStringBuilder(connectionString) switch
            {
                { Host: null or "" } => $"It names no Host; write it such as '{Example}'.",
                { Database: null or "" } => $"It names no Database; write it such as '{Example}'.",
                _ => null,
            };
        }
        catch (Exception fault) when (fault is ArgumentException or FormatException or KeyNotFoundException or OverflowException)
        {
            return $"It cannot be read as a connection string of PostgreSQL (keywords and values, such as '{Example}').";
        }
    }

    /// <summary>Opens a database, making its tables or bringing them up to date as needed; of several that start at once one does so.</summary>
    /// <param name="connectionString">Keywords and values as Npgsql reads them. Its password stands in no message.</param>
    /// <exception cref="ArgumentException">The string has a fault.</exception>
    /// <exception cref="UnusableDatabaseException">The server is away or refuses us, or the database is not ours or of a newer program.</exception>
    public static PostgresDatabase Open(string connectionString)
    {
        if (FaultOf(connectionString) is { } fault)
        {
            throw new ArgumentException(fault, nameof(connectionString));
        }

        var settings = WithDefaults(new NpgsqlConnectionStringBuilder(connectionString));
        var place = $"PostgreSQL {settings.Host}:{settings.Port}/{settings.Database}";
        var database = new PostgresDatabase(place, new NpgsqlDataSourceBuilder(settings.ToString()).Build());
        try
        {
            database.Prepare();
            return database;
        }
        catch (DbException e)
        {
            database.Dispose();
            throw new UnusableDatabaseException($"The database {place} cannot be used: {WhyNot(e, settings)}", e);
        }
        catch
        {
            database.Dispose();
            throw;
        }
    }

    /// <inheritdoc/>
    public override DatabaseTrouble? TroubleOf(DbException fault) => fault switch
    {
        PostgresException { SqlState: PostgresErrorCodes.LockNotAvailable } =>
            new($"Others have been writing to the same shelf for {Patience.TotalSeconds} seconds. Nothing was stored; try again.", Passes: true),
        PostgresException { SqlState: PostgresErrorCodes.DiskFull } => new("There is no room left on the database's disk. Nothing was stored; make room and try again.", Passes: false),
        PostgresException { SqlState: PostgresErrorCodes.DataCorrupted or PostgresErrorCodes.IndexCorrupted } => new("The database is damaged. Stop the services, and restore a backup.", Passes: false),
        PostgresException { SqlState: PostgresErrorCodes.ReadOnlySqlTransaction } => new("The database only lets itself be read just now. Nothing was stored; try again.", Passes: true),
        PostgresException { IsTransient: true } or NpgsqlException { IsTransient: true } => new("The database cannot be reached just now; try again.", Passes: true),
        NpgsqlException when IsBrokenConnection(fault) => new("The database cannot be reached just now; try again.", Passes: true),
        _ => null,
    };

    /// <inheritdoc/>
    public override void Dispose() => _source.Dispose();

    internal override DbConnection Connect() => _source.OpenConnection();

    internal override DbTransaction BeginReading(DbConnection connection) => connection.BeginTransaction(IsolationLevel.RepeatableRead);

    // Each statement sees what was finished before it: of what the transaction has claimed, nothing changes under it.
    internal override DbTransaction BeginWriting(DbConnection connection) => connection.BeginTransaction(IsolationLevel.ReadCommitted);

    internal override bool IsBrokenConnection(DbException fault) => fault switch
    {
        PostgresException answered => answered.SqlState is PostgresErrorCodes.AdminShutdown or PostgresErrorCodes.CrashShutdown or PostgresErrorCodes.CannotConnectNow
            or PostgresErrorCodes.TooManyConnections or IdleInTransactionSessionTimeout,
        NpgsqlException { InnerException: IOException or System.Net.Sockets.SocketException or ObjectDisposedException } => true,
        _ => false,
    };

    // PostgreSQL keeps no zero character in a text.
    internal override string ToStored(string text) =>
        text.AsSpan().IndexOfAny('\0', Substitute[0]) < 0 ? text : text.Replace(Substitute, SubstituteItself, StringComparison.Ordinal).Replace(Zero, SubstituteZero, StringComparison.Ordinal);

    internal override string FromStored(string text) =>
        text.Contains(Substitute[0]) ? text.Replace(SubstituteZero, Zero, StringComparison.Ordinal).Replace(SubstituteItself, Substitute, StringComparison.Ordinal) : text;

    private static NpgsqlConnectionStringBuilder WithDefaults(NpgsqlConnectionStringBuilder settings)
    {
        void Default(string keyword, object value)
        {
            if (!settings.ShouldSerialize(keyword))
            {
                settings[keyword] = value;
            }
        }

        Default("Application Name", "mixengine");
        Default("Maximum Pool Size", MostConnections);
        Default("Timeout", 5);

        // No wait for a lock is endless, and a service that vanished in the middle of a transaction holds nothing for long.
        Default("Options", string.Create(CultureInfo.InvariantCulture, $"-c lock_timeout={Patience.TotalSeconds}s -c idle_in_transaction_session_timeout=60s"));
        return settings;
    }

    private void Prepare()
    {
        using var connection = _source.OpenConnection();
        if (Scalar<string>(connection, "SHOW server_encoding") is var encoding && encoding != "UTF8")
        {
            throw new UnusableDatabaseException($"The database {Place} keeps its text as {encoding}, in which not every name can be written; make one with ENCODING 'UTF8'. Nothing was changed.");
        }

        // Read before anything is written: what a newer program wrote is left untouched.
        if (VersionOf(connection) == CurrentVersion)
        {
            return;
        }

        // Of several services that start at once the others wait, then find the work done.
        using var transaction = connection.BeginTransaction(IsolationLevel.ReadCommitted);
        Execute(connection, "SET LOCAL lock_timeout = 0");
        Execute(connection, "SELECT pg_advisory_xact_lock(hashtextextended('mixengine tables ' || current_schema(), 0))");
        for (var version = VersionOf(connection); version < CurrentVersion; version++)
        {
            Execute(connection, PostgresMigrations.Steps[version]);
            Execute(connection, string.Create(
                CultureInfo.InvariantCulture,
                $"CREATE TABLE IF NOT EXISTS schema_version (version BIGINT NOT NULL); DELETE FROM schema_version; INSERT INTO schema_version VALUES ({version + 1})"));
        }

        transaction.Commit();
    }

    private int VersionOf(NpgsqlConnection connection)
    {
        if (Scalar<string?>(connection, "SELECT current_schema()") is null)
        {
            throw new UnusableDatabaseException($"The database {Place} has no schema that its user may see; make one, or name it with 'Search Path=' in the connection string.");
        }

        if (Scalar<long>(connection, "SELECT count(*) FROM pg_class WHERE relnamespace = current_schema()::regnamespace AND relkind IN ('r', 'p', 'v', 'm')") == 0)
        {
            return 0;
        }

        if (Scalar<long>(connection, "SELECT count(*) FROM pg_class WHERE relnamespace = current_schema()::regnamespace AND relname IN ('schema_version', 'made_mix')") < 2)
        {
            throw new UnusableDatabaseException(
                $"The database {Place} holds the tables of another program; make one for MixEngine alone, or a schema, named with 'Search Path=' in the connection string. Nothing was changed.");
        }

        var version = Scalar<long>(connection, "SELECT max(version) FROM schema_version");
        return version <= CurrentVersion
            ? (int)version
            : throw new UnusableDatabaseException(
                $"The database {Place} was written by a newer MixEngine (tables of version {version}; this one knows {CurrentVersion}). Use that one, or another database. Nothing was changed.");
    }

    private static string WhyNot(DbException fault, NpgsqlConnectionStringBuilder settings) => fault switch
    {
        PostgresException { SqlState: PostgresErrorCodes.InvalidPassword or PostgresErrorCodes.InvalidAuthorizationSpecification } =>
            $"the server does not let the user '{settings.Username}' in; see to the user's name, the password and the server's pg_hba.conf.",
        PostgresException { SqlState: PostgresErrorCodes.InvalidCatalogName } => $"the server has no database of that name; make it first: createdb {settings.Database}",
        PostgresException { SqlState: PostgresErrorCodes.InsufficientPrivilege } =>
            $"the user '{settings.Username}' may not make tables there; let that user own the database: ALTER DATABASE \"{settings.Database}\" OWNER TO \"{settings.Username}\"",
        PostgresException answered => $"the server says: {answered.MessageText} ({answered.SqlState})",
        NpgsqlException { InnerException: System.Net.Sockets.SocketException socket } => $"nobody answers there ({socket.Message}); see whether the server runs, and to Host and Port.",
        NpgsqlException { InnerException: TimeoutException } => "nobody answers there in time; see whether the server runs, and to Host and Port.",
        _ => fault.Message,
    };

    private static void Execute(NpgsqlConnection connection, string sql)
    {
        using var command = new NpgsqlCommand(sql, connection);
        command.ExecuteNonQuery();
    }

    private static T Scalar<T>(NpgsqlConnection connection, string sql)
    {
        using var command = new NpgsqlCommand(sql, connection);
        return command.ExecuteScalar() is T value ? value : default!;
    }
}
