using System.Globalization;
using Microsoft.Data.Sqlite;

namespace MixEngine.Storage;

/// <summary>The SQLite file that holds everything a user has entered.</summary>
public sealed class Database : IDisposable
{
    private const int SqliteNotADatabase = 26;

    private readonly string _connectionString;

    private Database(string path, string connectionString)
    {
        Path = path;
        _connectionString = connectionString;
    }

    /// <summary>The version of the tables that this program writes.</summary>
    public static int CurrentVersion => Migrations.Steps.Count;

    /// <summary>Where the file is.</summary>
    public string Path { get; }

    /// <summary>Opens the file, making it or bringing its tables up to date as needed.</summary>
    /// <exception cref="UnusableDatabaseException">It is not ours, damaged, from a newer program, or cannot be written.</exception>
    public static Database Open(string path)
    {
        var database = new Database(path, new SqliteConnectionStringBuilder
        {
            DataSource = path,
            ForeignKeys = true,

            // Seconds that a statement waits while another process writes.
            DefaultTimeout = 10,
        }.ToString());
        try
        {
            database.Prepare();
            return database;
        }
        catch (SqliteException e)
        {
            database.Dispose();
            throw new UnusableDatabaseException(
                e.SqliteErrorCode == SqliteNotADatabase
                    ? $"'{path}' is not a MixEngine database; move it away, or choose another data folder."
                    : $"The database '{path}' cannot be used: {e.Message}",
                e);
        }
        catch
        {
            database.Dispose();
            throw;
        }
    }

    /// <summary>Asks the database for nothing but an answer.</summary>
    /// <exception cref="System.Data.Common.DbException">It gives none.</exception>
    public void Ask()
    {
        using var session = Session.Reading(this);
        session.Number("SELECT max(version) FROM schema_version");
    }

    /// <summary>Lets go of the file.</summary>
    public void Dispose()
    {
        using var connection = new SqliteConnection(_connectionString);
        SqliteConnection.ClearPool(connection);
    }

    /// <summary>An open connection; dispose it soon.</summary>
    internal SqliteConnection Connect()
    {
        var connection = new SqliteConnection(_connectionString);
        connection.Open();
        return connection;
    }

    private void Prepare()
    {
        // Not of the pool: none that comes later may find what is set for this one.
        using var connection = new SqliteConnection(new SqliteConnectionStringBuilder(_connectionString) { Pooling = false }.ToString());
        connection.Open();

        // Read before anything is written: what a newer program wrote is left untouched.
        if (VersionOf(connection, null) == CurrentVersion)
        {
            return;
        }

        // Readers go on while one writes, and a kill at any moment loses no finished transaction.
        Execute(connection, null, "PRAGMA journal_mode = WAL");

        // Tables are made anew around their rows, which a check of each statement would take for rows without their shelf; all are checked at the end.
        Execute(connection, null, "PRAGMA foreign_keys = OFF");

        // Not deferred: of two processes that start at once the second waits, then finds the work done.
        using var transaction = connection.BeginTransaction(deferred: false);
        for (var version = VersionOf(connection, transaction); version < CurrentVersion; version++)
        {
            Execute(connection, transaction, Migrations.Steps[version]);
            Execute(connection, transaction, string.Create(
                CultureInfo.InvariantCulture,
                $"CREATE TABLE IF NOT EXISTS schema_version (version INTEGER NOT NULL) STRICT; DELETE FROM schema_version; INSERT INTO schema_version VALUES ({version + 1})"));
        }

        if (Scalar(connection, transaction, "SELECT count(*) FROM pragma_foreign_key_check") is > 0 and var lost)
        {
            throw new UnusableDatabaseException($"The database '{Path}' is damaged: {lost} of its rows belong to nothing. Nothing was changed; restore a backup.");
        }

        transaction.Commit();
    }

    private int VersionOf(SqliteConnection connection, SqliteTransaction? transaction)
    {
        var tables = Scalar(connection, transaction, "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%'");
        if (tables == 0)
        {
            return 0;
        }

        if (Scalar(connection, transaction, "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name = 'schema_version'") == 0)
        {
            throw new UnusableDatabaseException($"'{Path}' is the database of another program; move it away, or choose another data folder.");
        }

        var version = Scalar(connection, transaction, "SELECT max(version) FROM schema_version");
        return version <= CurrentVersion
            ? (int)version
            : throw new UnusableDatabaseException(
                $"The database '{Path}' was written by a newer MixEngine (tables of version {version}; this one knows {CurrentVersion}). Use that one, or choose another data folder. Nothing was changed.");
    }

    private static void Execute(SqliteConnection connection, SqliteTransaction? transaction, string sql)
    {
        using var command = connection.CreateCommand();
        command.Transaction = transaction;
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    private static long Scalar(SqliteConnection connection, SqliteTransaction? transaction, string sql)
    {
        using var command = connection.CreateCommand();
        command.Transaction = transaction;
        command.CommandText = sql;
        return (long)command.ExecuteScalar()!;
    }
}
