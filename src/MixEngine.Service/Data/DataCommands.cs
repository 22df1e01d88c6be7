using System.CommandLine;
using System.Globalization;
using MixEngine.Service.Hosting;
using MixEngine.Service.Options;
using MixEngine.Storage;

namespace MixEngine.Service.Data;

/// <summary>What is done with the database's file itself: a copy of it, a look through it, and a copy put back.</summary>
/// <param name="environment">Gives the value of an environment variable, null where it is not set.</param>
/// <param name="output">Gets what was done or found.</param>
/// <param name="errors">Gets why nothing was done.</param>
public sealed class DataCommands(Func<string, string?> environment, TextWriter output, TextWriter errors)
{
    /// <summary>The first word of these commands.</summary>
    public const string Word = "data";

    private readonly Argument<string> _file = new("FILE") { Description = "The backup's file." };
    private readonly Option<string?> _data = new("--data") { HelpName = "DIR", Description = "Folder of the database mixengine.db." };
    private readonly Option<string?> _socket = new("--socket") { HelpName = "PATH", Description = "Socket of the service that uses it." };

    /// <summary>Does it.</summary>
    /// <returns>The exit code: 0 done, 1 refused, 2 checked and found faulty.</returns>
    public int Invoke(IReadOnlyList<string> arguments)
    {
        var backup = new Command("backup", "Write a copy of the database into a new file; the service may go on meanwhile.") { _file, _data };
        backup.SetAction(parsed => Backup(Path.GetFullPath(parsed.GetValue(_file)!), DatabaseOf(parsed)));
        var check = new Command("check", "Read everything that is stored, and name what is damaged. Exit code 2: something is.") { _data };
        check.SetAction(parsed => Check(DatabaseOf(parsed)));
        var restore = new Command("restore", "Put a backup in the database's place; what was there is kept beside it. The service must have ended.") { _file, _data, _socket };
        restore.SetAction(parsed => Restore(Path.GetFullPath(parsed.GetValue(_file)!), DatabaseOf(parsed), SocketOf(parsed)));
        var command = new RootCommand("The database's file.") { backup, check, restore };
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

    private int Backup(string file, string database)
    {
        if (DatabaseIsElsewhere("pg_dump --format=custom --file=FILE") || IsMissing(database))
        {
            return ExitCodes.Refused;
        }

        if (Path.Exists(file))
        {
            errors.WriteLine($"'{file}' exists already and is left as it is. Name another file, or move that one away.");
            return ExitCodes.Refused;
        }

        // Named only when it is whole.
        var part = file + ".part";
        using (new TemporaryDatabase(part))
        {
            SqliteCopy.Write(database, part);
            File.Move(part, file);
        }

        output.WriteLine($"'{file}' holds all of '{database}' ({Size(file)}), checked. Put it back with: data restore {file}");
        return ExitCodes.Ended;
    }

    private int Check(string database)
    {
        if (DatabaseIsElsewhere("pg_amcheck") || IsMissing(database))
        {
            return ExitCodes.Refused;
        }

        // A file of an older program is brought up to date by the service, not by a look at it.
        using var copied = new TemporaryDatabase(Path.Combine(Path.GetTempPath(), Path.GetRandomFileName()));
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

    private int Restore(string file, string database, SocketOptions socket)
    {
        if (DatabaseIsElsewhere("pg_restore --clean --if-exists --dbname=NAME FILE"))
        {
            return ExitCodes.Refused;
        }

        if (!File.Exists(file))
        {
            errors.WriteLine($"There is no file '{file}'.");
            return ExitCodes.Refused;
        }

        using var alone = SocketLock.TryTake(socket.Path, socket.LockPath);
        if (alone is null)
        {
            errors.WriteLine($"A service answers on '{socket.Path}'. End it first, then restore. Nothing was changed.");
            return ExitCodes.Refused;
        }

        // Copied, checked and brought up to date before anything is touched.
        PrivateFiles.CreateDirectory(Path.GetDirectoryName(database)!);
        using var copied = new TemporaryDatabase(database + ".restoring");
        SqliteCopy.Write(file, copied.Path);
        if (FaultsOf(copied.Path) is [var first, ..] faults)
        {
            errors.WriteLine($"'{file}' is damaged: {first}{(faults.Count > 1 ? $" ({faults.Count} such faults)" : "")}. Nothing was changed.");
            return ExitCodes.Refused;
        }

        KeepRevoked(database, copied.Path);
        var aside = Aside(database);
        PrivateFiles.CreateFile(aside);
        PrivateFiles.CreateFile(database);
        try
        {
            SqliteCopy.PutInPlace(copied.Path, database, aside);
            PrivateFiles.Restrict(database);
        }
        catch
        {
            RemoveEmpty(aside);
            throw;
        }

        output.WriteLine($"'{database}' is now what '{file}' holds.");
        output.WriteLine(File.Exists(aside) ? $"What was there before is kept in '{aside}'." : "There was none before.");
        return ExitCodes.Ended;
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
        catch (UnusableDatabaseException)
        {
            output.WriteLine("What is there now cannot be read: access keys that were revoked since the backup are valid again. See 'keys list'.");
        }
    }

    private bool DatabaseIsElsewhere(string instead)
    {
        if (DefaultPaths.Database(environment) is null)
        {
            return false;
        }

        errors.WriteLine($"MIXENGINE_DATABASE names a database of PostgreSQL, which brings its own programs for this: {instead}");
        return true;
    }

    private bool IsMissing(string database)
    {
        if (File.Exists(database))
        {
            return false;
        }

        errors.WriteLine($"There is no database '{database}' yet. Name its folder with --data, if it is elsewhere.");
        return true;
    }

    private static void RemoveEmpty(string file)
    {
        if (new FileInfo(file) is { Exists: true, Length: 0 })
        {
            File.Delete(file);
        }
    }

    private static string Aside(string database)
    {
        var stem = $"{database}.before-{TimeProvider.System.GetUtcNow().ToString("yyyyMMdd-HHmmss", CultureInfo.InvariantCulture)}";
        return Enumerable.Range(1, int.MaxValue - 1).Select(number => number == 1 ? stem : $"{stem}-{number}").First(path => !Path.Exists(path));
    }

    private string DatabaseOf(ParseResult parsed) => new DataOptions { Directory = DirectoryOf(parsed) }.DatabasePath;

    private SocketOptions SocketOf(ParseResult parsed) => new() { Path = Path.GetFullPath(parsed.GetValue(_socket) ?? DefaultPaths.Socket(environment, DirectoryOf(parsed))) };

    private string DirectoryOf(ParseResult parsed) => Path.GetFullPath(parsed.GetValue(_data) ?? DefaultPaths.DataDirectory(environment));

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

        public void Dispose()
        {
            foreach (var ending in new[] { "", "-wal", "-shm", "-journal" })
            {
                File.Delete(Path + ending);
            }
        }
    }
}
