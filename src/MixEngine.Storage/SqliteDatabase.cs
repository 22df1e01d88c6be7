using System.Data.Common;
using System.Globalization;
using Microsoft.Data.Sqlite;

namespace MixEngine.Storage;

/// <summary>The SQLite file of one user's service.</summary>
public sealed class SqliteDatabase : Database
{
    private const int Busy = 5, Locked = 6, ReadOnly = 8, IoError = 10, Corrupt = 11, Full = 13, CannotOpen = 14, NotADatabase = 26;
    private const int Moved = ReadOnly | (4 << 8);

    private const string MovedWords = "The database's file was moved, replaced or deleted while the service used it. Nothing was stored; put that file back, or end the service and restore a backup.";

    // Milliseconds.
    private const long LongestUnchecked = 100;

    private readonly string _connectionString;

    // While the file is open somewhere, nobody puts another content into it: SQLite tells by a lock that each connection holds, and the others of a quiet service are let go of.
    private SqliteConnection? _holding;

    private SqliteChanges? _changes;
    private long _placeChecked;

    private SqliteDatabase(string path, string connectionString)
        : base(path) => _connectionString = connectionString;

    /// <summary>The version of the tables that this program writes.</summary>
    public static int CurrentVersion => SqliteMigrations.Steps.Count;

    internal override string? ClaimStatement => null;

    /// <summary>Opens the file, making it or bringing its tables up to date as needed.</summary>
    /// <exception cref="UnusableDatabaseException">It is not ours, damaged, from a newer program, or cannot be written.</exception>
    public static SqliteDatabase Open(string path)
    {
        var database = new SqliteDatabase(path, new SqliteConnectionStringBuilder
        {
            DataSource = path,
            ForeignKeys = true,

            // Once it was opened it is never made anew: an empty file in the place of one that was taken away would look like a loss of everything.
            Mode = SqliteOpenMode.ReadWrite,

            // Seconds that a statement waits while another process writes.
            DefaultTimeout = (int)Patience.TotalSeconds,
        }.ToString());
        try
        {
            database.Prepare();
            database._holding = OpenAlone(path, SqliteOpenMode.ReadWrite);
            VersionOf(database._holding, null, path);
            database._changes = SqliteChanges.Of(database._holding);
            return database;
        }
        catch (SqliteException e)
        {
            database.Dispose();
            throw new UnusableDatabaseException(
                e.SqliteErrorCode == NotADatabase
                    ? $"'{path}' is not a MixEngine database; move it away, or choose another data folder."
                    : $"The database '{path}' cannot be used: {database.TroubleOf(e)?.Words ?? e.Message}",
                e);
        }
        catch
        {
            database.Dispose();
            throw;
        }
    }

    /// <inheritdoc/>
    public override DatabaseTrouble? TroubleOf(DbException fault) => (fault as SqliteException)?.SqliteErrorCode switch
    {
        _ when fault is SqliteException { SqliteExtendedErrorCode: Moved } => new(MovedWords, Passes: false),
        Busy or Locked => new($"Another process has been writing to the database for {Patience.TotalSeconds} seconds. Nothing was stored; try again.", Passes: true),
        Full => new("There is no room left on the database's disk. Nothing was stored; make room and try again.", Passes: false),
        ReadOnly or CannotOpen => new("The database's file cannot be written. Nothing was stored; see to its permissions and its disk.", Passes: false),
        IoError => new("The database's disk fails to read or write. Nothing was stored; see to the disk, and whether it is full.", Passes: false),
        Corrupt or NotADatabase => new("The database's file is damaged. Stop the service, keep the file aside, and restore a backup.", Passes: false),
        _ => null,
    };

    /// <inheritdoc/>
    public override void Dispose()
    {
        _changes = null;
        _holding?.Dispose();
        using var connection = new SqliteConnection(_connectionString);
        SqliteConnection.ClearPool(connection);
    }

    internal override long? ChangeCount()
    {
        // Who is answered from memory need not hear at once that the file has gone.
        if (Environment.TickCount64 - Volatile.Read(ref _placeChecked) > LongestUnchecked)
        {
            CheckPlace();
            Volatile.Write(ref _placeChecked, Environment.TickCount64);
        }

        return _changes?.Count();
    }

    internal override DbConnection Connect()
    {
        CheckPlace();
        var connection = new SqliteConnection(_connectionString);
        connection.Open();
        return connection;
    }

    internal override DbTransaction BeginReading(DbConnection connection) => ((SqliteConnection)connection).BeginTransaction(deferred: true);

    // Not deferred: it waits for other writers before it reads anything.
    internal override DbTransaction BeginWriting(DbConnection connection) => ((SqliteConnection)connection).BeginTransaction(deferred: false);

    internal override bool IsBrokenConnection(DbException fault) => false;

    /// <summary>A connection that is not of the pool: none that comes later may find what is set for this one.</summary>
    internal static SqliteConnection OpenAlone(string path, SqliteOpenMode mode)
    {
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = path, Mode = mode, Pooling = false, DefaultTimeout = (int)Patience.TotalSeconds }.ToString());
        try
        {
            connection.Open();
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    // SQLite would go on writing into a file that no name leads to any longer.
    private void CheckPlace()
    {
        if (_holding is not null && SqliteFileState.IsMoved(_holding))
        {
            throw new SqliteException(MovedWords, ReadOnly, Moved);
        }
    }

    private void Prepare()
    {
        using var connection = OpenAlone(Place, SqliteOpenMode.ReadWriteCreate);

        // Read before anything is written: what a newer program wrote is left untouched.
        var found = VersionOf(connection, null, Place);

        // Readers go on while one writes, and a kill at any moment loses no finished transaction.
        Execute(connection, null, "PRAGMA journal_mode = WAL");
        if (found == CurrentVersion)
        {
            return;
        }

        // Tables are made anew around their rows, which a check of each statement would take for rows without their shelf; all are checked at the end.
        Execute(connection, null, "PRAGMA foreign_keys = OFF");

        // Not deferred: of two processes that start at once the second waits, then finds the work done.
        using var transaction = connection.BeginTransaction(deferred: false);
        for (var version = VersionOf(connection, transaction, Place); version < CurrentVersion; version++)
        {
            Execute(connection, transaction, SqliteMigrations.Steps[version]);
            Execute(connection, transaction, string.Create(
                CultureInfo.InvariantCulture,
                $"CREATE TABLE IF NOT EXISTS schema_version (version INTEGER NOT NULL) STRICT; DELETE FROM schema_version; INSERT INTO schema_version VALUES ({version + 1})"));
        }

        if (Scalar(connection, transaction, "SELECT count(*) FROM pragma_foreign_key_check") is > 0 and var lost)
        {
            throw new UnusableDatabaseException($"The database '{Place}' is damaged: {lost} of its rows belong to nothing. Nothing was changed; restore a backup.");
        }

        transaction.Commit();
    }

    /// <summary>The version of a file's tables; 0: it has none.</summary>
    /// <param name="connection">To the file.</param>
    /// <param name="transaction">In which to look.</param>
    /// <param name="place">The file, for words.</param>
    /// <exception cref="UnusableDatabaseException">It is another program's, or a newer one's.</exception>
    internal static int VersionOf(SqliteConnection connection, SqliteTransaction? transaction, string place)
    {
        var tables = Scalar(connection, transaction, "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%'");
        if (tables == 0)
        {
            return 0;
        }

        if (Scalar(connection, transaction, "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name = 'schema_version'") == 0)
        {
            throw new UnusableDatabaseException($"'{place}' is the database of another program; move it away, or choose another data folder.");
        }

        var version = Scalar(connection, transaction, "SELECT max(version) FROM schema_version");
        return version <= CurrentVersion
            ? (int)version
            : throw new UnusableDatabaseException(
                $"The database '{place}' was written by a newer MixEngine (tables of version {version}; this one knows {CurrentVersion}). Use that one, or choose another data folder. Nothing was changed.");
    }

    internal static void Execute(SqliteConnection connection, SqliteTransaction? transaction, string sql)
    {
        using var command = connection.CreateCommand();
        command.Transaction = transaction;
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    internal static long Scalar(SqliteConnection connection, SqliteTransaction? transaction, string sql)
    {
        using var command = connection.CreateCommand();
        command.Transaction = transaction;
        command.CommandText = sql;
        return (long)command.ExecuteScalar()!;
    }
}
