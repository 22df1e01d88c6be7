using Microsoft.Data.Sqlite;

namespace MixEngine.Storage;

/// <summary>Whole copies of a SQLite database, by SQLite's own online backup: of one moment, whoever reads or writes meanwhile.</summary>
public static class SqliteCopy
{
    private const int Busy = 5, Corrupt = 11, NotADatabase = 26;
    private const string LogEnding = "-wal";

    /// <summary>Writes a database into a new file, which holds all of it and needs no other file beside it.</summary>
    /// <param name="database">The database's file; it is not changed, whatever its version.</param>
    /// <param name="copy">An empty file, or the name of one to be made.</param>
    /// <exception cref="UnusableDatabaseException">The database is not ours, or of a newer program, or damaged. What stands in the copy then is worth nothing.</exception>
    public static void Write(string database, string copy) => Telling(database, () =>
    {
        using var from = SqliteDatabase.OpenAlone(database, SqliteOpenMode.ReadWrite);
        if (SqliteDatabase.VersionOf(from, null, database) == 0)
        {
            throw new UnusableDatabaseException($"'{database}' holds nothing: it is no database of MixEngine.");
        }

        using var to = SqliteDatabase.OpenAlone(copy, SqliteOpenMode.ReadWriteCreate);
        from.BackupDatabase(to);
        SqliteDatabase.Execute(to, null, "PRAGMA journal_mode = DELETE");
        if (DamageOf(to) is [var first, ..] damage)
        {
            throw new UnusableDatabaseException($"'{database}' is damaged: {first}{(damage.Count > 1 ? $" ({damage.Count} such faults)" : "")}");
        }
    });

    /// <summary>Puts a copy in the place of a database, in one transaction: it happens wholly or not at all, even when the process is killed in the middle.</summary>
    /// <param name="copy">A file that <see cref="Write"/> wrote, brought up to date.</param>
    /// <param name="database">The database's file; it need not be there.</param>
    /// <param name="aside">An empty file that gets what was there before; it is removed where there was nothing.</param>
    /// <exception cref="UnusableDatabaseException">A service or another process has the database open; nothing was changed.</exception>
    public static void PutInPlace(string copy, string database, string aside) => Telling(database, () =>
    {
        using var from = SqliteDatabase.OpenAlone(copy, SqliteOpenMode.ReadOnly);
        var isNew = new FileInfo(database) is not { Exists: true, Length: > 0 } && !File.Exists(database + LogEnding);
        using var to = isNew ? OpenExclusively(database) : KeepAside(database, aside);
        if (isNew)
        {
            File.Delete(aside);
        }

        from.BackupDatabase(to);
    });

    /// <summary>What SQLite itself finds wrong with a file: its structure, its indexes, and rows that belong to nothing.</summary>
    internal static IReadOnlyList<string> DamageOf(SqliteConnection connection)
    {
        var faults = new List<string>();
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT integrity_check FROM pragma_integrity_check WHERE integrity_check <> 'ok' UNION ALL "
            + "SELECT 'row ' || coalesce(rowid, '?') || ' of ' || \"table\" || ' belongs to no ' || parent FROM pragma_foreign_key_check";
        using var reader = command.ExecuteReader();
        while (reader.Read())
        {
            faults.Add(reader.GetString(0));
        }

        return faults;
    }

    // A connection to the database that nobody else can have now, its content being safe in the other file.
    private static SqliteConnection KeepAside(string database, string aside)
    {
        SqliteConnection? before = null;
        try
        {
            before = OpenExclusively(database);
            using var kept = SqliteDatabase.OpenAlone(aside, SqliteOpenMode.ReadWriteCreate);
            before.BackupDatabase(kept);
            SqliteDatabase.Execute(kept, null, "PRAGMA journal_mode = DELETE");
            return before;
        }
        catch (SqliteException fault) when (fault.SqliteErrorCode is Corrupt or NotADatabase)
        {
            // Nothing that can be read: kept as it is, with its log beside it.
            before?.Dispose();
            foreach (var ending in new[] { "", LogEnding, "-shm", "-journal" }.Where(ending => File.Exists(database + ending)))
            {
                File.Move(database + ending, aside + ending, overwrite: true);
            }

            return OpenExclusively(database);
        }
        catch
        {
            before?.Dispose();
            throw;
        }
    }

    // Refused while anybody has the file open, even when they do nothing with it.
    private static SqliteConnection OpenExclusively(string database)
    {
        var connection = SqliteDatabase.OpenAlone(database, SqliteOpenMode.ReadWriteCreate);
        try
        {
            connection.DefaultTimeout = 1;
            SqliteDatabase.Execute(connection, null, "PRAGMA locking_mode = EXCLUSIVE; BEGIN EXCLUSIVE; COMMIT");
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    private static void Telling(string database, Action act)
    {
        try
        {
            act();
        }
        catch (SqliteException fault)
        {
            throw new UnusableDatabaseException(
                fault.SqliteErrorCode switch
                {
                    Busy => $"'{database}' is open in another process. End the service that uses it, and try again. Nothing was changed.",
                    NotADatabase => $"'{database}' is not a MixEngine database.",
                    Corrupt => $"'{database}' is damaged: {fault.Message}",
                    _ => $"'{database}' cannot be read or written: {fault.Message}",
                },
                fault);
        }
    }
}
