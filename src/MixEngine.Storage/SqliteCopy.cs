using Microsoft.Data.Sqlite;

namespace MixEngine.Storage;

/// <summary>Whole copies of a SQLite database, by SQLite's own online backup: of one moment, whoever reads or writes meanwhile.</summary>
public static class SqliteCopy
{
    private const int Busy = 5, Corrupt = 11, NotADatabase = 26;

    // What SQLite keeps beside a file that was not closed.
    private static readonly string[] Beside = ["-wal", "-journal", "-shm"];

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

    /// <summary>Where a file is written until it is whole and gets its name. Made before, it stays open to nobody else.</summary>
    public static string PartOf(string file) => file + ".part";

    /// <summary>Puts a copy in the place of a database, in one transaction: it happens wholly or not at all, even when the process is killed in the middle.</summary>
    /// <param name="copy">A file that <see cref="Write"/> wrote, brought up to date.</param>
    /// <param name="database">The database's file; it need not be there. It is written through its part where what is there cannot be read.</param>
    /// <param name="aside">The file that gets, through its part, what was there before, where there was anything.</param>
    /// <param name="make">Makes an empty file that nobody else can open, unless it is there.</param>
    /// <exception cref="UnusableDatabaseException">A service or another process has the database open; nothing was changed.</exception>
    public static void PutInPlace(string copy, string database, string aside, Action<string> make) => Telling(database, () =>
    {
        using var from = SqliteDatabase.OpenAlone(copy, SqliteOpenMode.ReadOnly);
        try
        {
            // Nobody else can have it now; what a killed process left half written is gone.
            using var to = OpenExclusively(database);
            if (SqliteDatabase.Scalar(to, null, "PRAGMA page_count") > 0)
            {
                WriteThroughPart(to, aside, make);
            }

            from.BackupDatabase(to);
        }
        catch (SqliteException fault) when (fault.SqliteErrorCode is Corrupt or NotADatabase)
        {
            // Nothing that can be read: kept as it is, with its log beside it, before anything of it goes.
            foreach (var ending in Beside.Prepend("").Where(ending => File.Exists(database + ending)))
            {
                make(PartOf(aside));
                File.Copy(database + ending, PartOf(aside), overwrite: true);
                File.Move(PartOf(aside), aside + ending, overwrite: true);
            }

            // Nor does a new file read the log of the one before.
            foreach (var ending in Beside)
            {
                File.Delete(database + ending);
            }

            WriteThroughPart(from, database, make);
        }
    });

    /// <summary>Removes the parts that killed processes left, unless somebody has the database open and may be writing them.</summary>
    /// <param name="database">The database's file.</param>
    /// <param name="asides">What the names of files begin with that hold what was in its place before.</param>
    public static void RemoveParts(string database, string asides)
    {
        try
        {
            using var alone = OpenExclusively(database);
            var kept = Directory.GetFiles(Path.GetDirectoryName(asides)!, Path.GetFileName(asides) + "*");
            foreach (var part in kept.Where(file => Beside.Prepend("").Any(ending => file.EndsWith(PartOf("") + ending, StringComparison.Ordinal))))
            {
                File.Delete(part);
            }

            Remove(PartOf(database));
        }
        catch (SqliteException)
        {
            // Theirs, or in their way: whoever is next does it.
        }
    }

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

    private static void WriteThroughPart(SqliteConnection from, string file, Action<string> make)
    {
        RemoveStale(PartOf(file));
        make(PartOf(file));
        try
        {
            using var part = SqliteDatabase.OpenAlone(PartOf(file), SqliteOpenMode.ReadWriteCreate);
            from.BackupDatabase(part);
            SqliteDatabase.Execute(part, null, "PRAGMA journal_mode = DELETE");
        }
        catch (Exception fault) when (fault is not SqliteException { SqliteErrorCode: Busy })
        {
            // Nobody else's, and worth nothing.
            Remove(PartOf(file));
            throw;
        }

        File.Move(PartOf(file), file, overwrite: true);
    }

    // What is being written is another's; what a killed process left is in the way, whole or not.
    private static void RemoveStale(string part)
    {
        if (!File.Exists(part))
        {
            return;
        }

        try
        {
            OpenExclusively(part).Dispose();
        }
        catch (SqliteException fault) when (fault.SqliteErrorCode is Corrupt or NotADatabase)
        {
            // Nobody writes it.
        }

        Remove(part);
    }

    private static void Remove(string file)
    {
        foreach (var ending in Beside.Prepend(""))
        {
            File.Delete(file + ending);
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
