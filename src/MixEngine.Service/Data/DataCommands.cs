using System.CommandLine;
using System.Data.Common;
using System.Globalization;
using MixEngine.Service.Hosting;
using MixEngine.Service.Options;
using MixEngine.Storage;

namespace MixEngine.Service.Data;

/// <summary>What is done with the database's file itself: a copy of it, a look through it, and a copy put back.</summary>
/// <param name="environment">All variables of the environment.</param>
/// <param name="output">Gets what was done or found.</param>
/// <param name="errors">Gets why nothing was done.</param>
public sealed class DataCommands(IReadOnlyDictionary<string, string> environment, TextWriter output, TextWriter errors)
{
    /// <summary>The first word of these commands.</summary>
    public const string Word = "data";

    private readonly Argument<string> _file = new("FILE") { Description = "The backup's file." };
    private readonly Option<bool> _dryRun = new("--dry-run") { Description = "Only see whether that file could be put back." };
    private readonly DataPlace _place = new(environment, SettingList.Data, SettingList.Config, SettingList.Socket);

    /// <summary>Does it.</summary>
    /// <returns>The exit code: 0 done, 1 refused, 2 checked and found faulty.</returns>
    public int Invoke(IReadOnlyList<string> arguments)
    {
        var backup = new Command("backup", "Write a copy of the database into a new file; the service may go on meanwhile.") { _file };
        backup.SetAction(parsed => With(parsed, "pg_dump --format=custom --file=FILE", (database, _) => Backup(FileOf(parsed), database)));
        var check = new Command("check", "Read everything that is stored, and name what is damaged. Exit code 2: something is.");
        check.SetAction(parsed => With(parsed, "pg_amcheck", (database, _) => Check(database)));
        var restore = new Command("restore", "Put a backup in the database's place; what was there is kept beside it. The service must have ended.") { _file, _dryRun };
        restore.SetAction(parsed => With(
            parsed, "pg_restore --clean --if-exists --dbname=NAME FILE", (database, socket) => Restore(FileOf(parsed), database, socket, parsed.GetValue(_dryRun))));
        var command = new RootCommand("The database's file.") { backup, check, restore };
        _place.AddTo(command);
        try
        {
            return command.Parse([.. arguments]).Invoke(new InvocationConfiguration { EnableDefaultExceptionHandler = false, Output = output, Error = errors });
        }
        catch (Exception fault) when (fault is UnusableDatabaseException or IOException or UnauthorizedAccessException)
        {
            errors.WriteLine(fault.Message);
            return ExitCodes.Refused;
        }
    }

    private int With(ParseResult parsed, string instead, Func<string, SocketOptions, int> act) => _place.With(parsed, errors, (data, socket, where) =>
    {
        if (data.Postgres is null)
        {
            return act(data.DatabasePath, socket);
        }

        errors.WriteLine($"{where}: it names a database of PostgreSQL, which brings its own programs for this: {instead}");
        return ExitCodes.Refused;
    });

    private int Backup(string file, string database)
    {
        if (IsMissing(database))
        {
            return ExitCodes.Refused;
        }

        if (Path.Exists(file))
        {
            errors.WriteLine($"'{file}' exists already and is left as it is. Name another file, or move that one away.");
            return ExitCodes.Refused;
        }

        // Named only when it is whole.
        using (var part = new TemporaryDatabase(SqliteCopy.PartOf(file)))
        {
            SqliteCopy.Write(database, part.Path);
            File.Move(part.Path, file);
        }

        output.WriteLine($"'{file}' holds all of '{database}' ({Size(file)}), checked. Put it back with: data restore {file}");
        return ExitCodes.Ended;
    }

    private int Check(string database)
    {
        if (IsMissing(database))
        {
            return ExitCodes.Refused;
        }

        // A file of an older program is brought up to date by the service, not by a look at it.
        using var copied = TemporaryDatabase.Anywhere();
        try
        {
            SqliteCopy.Write(database, copied.Path);
        }
        catch (UnusableDatabaseException damaged)
        {
            output.WriteLine(damaged.Message);
            return ExitCodes.Faulty;
        }

        var faults = FaultsOf(copied.Path);
        foreach (var fault in faults)
        {
            output.WriteLine(fault);
        }

        output.WriteLine(faults.Count == 0
            ? $"Everything in '{database}' ({Size(database)}) can be read."
            : $"{faults.Count} {(faults.Count == 1 ? "fault" : "faults")} in '{database}'. Keep the file aside, and restore a backup.");
        return faults.Count == 0 ? ExitCodes.Ended : ExitCodes.Faulty;
    }

    private int Restore(string file, string database, SocketOptions socket, bool dryRun)
    {
        // Copied, checked and brought up to date before anything is touched.
        using var copied = TemporaryDatabase.Anywhere();
        if (WhyNoBackup(file, copied.Path) is { } fault)
        {
            errors.WriteLine($"{fault}\nName a file that 'data backup' wrote; nothing was touched.");
            return ExitCodes.Refused;
        }

        if (dryRun)
        {
            output.WriteLine($"'{file}' is whole, and can be put in the place of '{database}'.");
            return ExitCodes.Ended;
        }

        // No service starts there meanwhile. One that runs may use another database: whether it uses this one, the database's own lock tells.
        using var alone = SocketLock.TryTake(socket.Path, socket.LockPath);
        PrivateFiles.CreateDirectory(Path.GetDirectoryName(database)!);
        KeepRevoked(database, copied.Path);
        var aside = Aside(database);
        PrivateFiles.CreateFile(database);
        SqliteCopy.PutInPlace(copied.Path, database, aside, PrivateFiles.CreateFile);
        PrivateFiles.Restrict(database);
        SqliteCopy.RemoveParts(database, Asides(database));
        output.WriteLine($"'{database}' is now what '{file}' holds.");
        output.WriteLine(File.Exists(aside) ? $"What was there before is kept in '{aside}'." : "There was none before.");
        return ExitCodes.Ended;
    }

    private static string? WhyNoBackup(string file, string copy)
    {
        if (!File.Exists(file))
        {
            return $"There is no file '{file}'.";
        }

        try
        {
            SqliteCopy.Write(file, copy);
            return FaultsOf(copy) is [var first, ..] faults ? $"'{file}' is damaged: {first}{(faults.Count > 1 ? $" ({faults.Count} such faults)" : "")}" : null;
        }
        catch (UnusableDatabaseException fault)
        {
            return fault.Message;
        }
    }

    // Opened as the service opens it: an older one is brought up to date.
    private static List<string> FaultsOf(string copy)
    {
        using var database = SqliteDatabase.Open(copy);
        return [.. DataCheck.Faults(database)];
    }

    // A key that was taken its power does not get it back by an older copy.
    private void KeepRevoked(string database, string copy)
    {
        if (new FileInfo(database) is not { Exists: true, Length: > 0 })
        {
            return;
        }

        try
        {
            using var now = SqliteDatabase.Open(database);
            using var then = SqliteDatabase.Open(copy);
            var keys = new AccessKeyStore(then);
            foreach (var key in new AccessKeyStore(now).List().Where(key => key.Revoked is not null))
            {
                keys.Revoke(key.Id, key.Revoked!.Value);
            }
        }
        catch (Exception fault) when (fault is UnusableDatabaseException or DbException or FormatException or ArgumentException)
        {
            output.WriteLine("What is there now cannot be read: access keys that were revoked since the backup are valid again. See 'key list'.");
        }
    }

    private bool IsMissing(string database)
    {
        if (File.Exists(database))
        {
            return false;
        }

        errors.WriteLine($"There is no database '{database}' yet. Name its folder with --data, if it is elsewhere, or the service's file of settings with --config.");
        return true;
    }

    private static string Asides(string database) => database + ".before-";

    private static string Aside(string database)
    {
        var stem = $"{Asides(database)}{TimeProvider.System.GetUtcNow().ToString("yyyyMMdd-HHmmss", CultureInfo.InvariantCulture)}";
        return Enumerable.Range(1, int.MaxValue - 1).Select(number => number == 1 ? stem : $"{stem}-{number}").First(path => !Path.Exists(path));
    }

    private string FileOf(ParseResult parsed) => Path.GetFullPath(parsed.GetValue(_file)!);

    private static string Size(string file) => string.Create(CultureInfo.InvariantCulture, $"{new FileInfo(file).Length / 1024.0:0} KiB");

    // A copy that nobody else can read, gone at the end whatever happens.
    private sealed class TemporaryDatabase : IDisposable
    {
        public TemporaryDatabase(string path)
        {
            Path = path;
            Dispose();
            PrivateFiles.CreateFile(path);
        }

        public string Path { get; }

        public static TemporaryDatabase Anywhere() => new(System.IO.Path.Combine(System.IO.Path.GetTempPath(), System.IO.Path.GetRandomFileName()));

        public void Dispose()
        {
            foreach (var ending in new[] { "", "-wal", "-shm", "-journal" })
            {
                File.Delete(Path + ending);
            }
        }
    }
}
