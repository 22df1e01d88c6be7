using System.Diagnostics;
using Npgsql;

namespace MixEngine.Storage.Tests;

/// <summary>
/// A real PostgreSQL of our own: made in a temporary folder when the first test asks for it, reached through a socket in that folder alone,
/// stopped and removed at the end, and at the latest when the test process is gone.
/// </summary>
public sealed class PostgresServer : IDisposable
{
    /// <summary>A user that the server lets in with the right password only; to be made first.</summary>
    public const string Guarded = "guarded";

    private const string Superuser = "test";
    private const string Unsafe = "-c fsync=off -c synchronous_commit=off -c full_page_writes=off";

    private readonly Lock _lock = new();
    private DirectoryInfo? _folder;
    private Process? _keeper;
    private int _databases;

    /// <summary>An empty database. Where there is no PostgreSQL on the machine, the test is skipped.</summary>
    public PostgresPlace NewDatabase()
    {
        var name = $"t{Interlocked.Increment(ref _databases)}";
        Run($"CREATE DATABASE {name}");
        return new PostgresPlace(ConnectionString(name));
    }

    /// <summary>How to reach a database.</summary>
    public string ConnectionString(string database) => $"Host={Started().FullName};Port=5432;Username={Superuser};Database={database}";

    /// <summary>Runs statements as the one who may do everything.</summary>
    public void Run(string sql, string database = "postgres")
    {
        using var connection = new NpgsqlConnection(ConnectionString(database) + ";Pooling=False");
        connection.Open();
        foreach (var statement in sql.Split(";;"))
        {
            using var command = new NpgsqlCommand(statement, connection);
            command.ExecuteNonQuery();
        }
    }

    /// <summary>Stops it at once: open connections are cut. It starts again when it is asked for.</summary>
    public void Stop()
    {
        lock (_lock)
        {
            // The keeper stops the server when nobody holds its input any longer.
            _keeper?.StandardInput.Close();
            _keeper?.WaitForExit();
            _keeper?.Dispose();
            _keeper = null;
        }
    }

    public void Dispose()
    {
        Stop();
        _folder?.Delete(recursive: true);
    }

    private DirectoryInfo Started()
    {
        lock (_lock)
        {
            var programs = Programs() ?? throw Skipped();
            if (_folder is null)
            {
                _folder = Directory.CreateTempSubdirectory("mixengine-pg-");
                if (User() is { } user)
                {
                    Finish(Process.Start("chown", [user, _folder.FullName]));
                }

                // Sorted as people sort, as servers are that somebody set up by hand: what we need sorted otherwise must say so.
                Finish(AsUser(Path.Combine(programs, "initdb"), "-D", Data, "-U", Superuser, "-A", "trust", "-E", "UTF8", "--locale=C.UTF-8", "--locale-provider=icu", "--icu-locale=und", "--no-sync"));

                // One user has to say a password; the others are let in.
                File.WriteAllText(Path.Combine(Data, "pg_hba.conf"), $"local all {Guarded} scram-sha-256\nlocal all all trust\n");
            }

            if (_keeper is null)
            {
                _keeper = AsUser(
                    "/bin/sh", "-c", $"\"$0\" -D \"$1\" -k \"$2\" -c listen_addresses= {Unsafe} & read _; kill -INT $!; wait $!",
                    Path.Combine(programs, "postgres"), Data, _folder.FullName);
                var patience = Stopwatch.StartNew();
                while (Process.Start(new ProcessStartInfo(Path.Combine(programs, "pg_isready"), ["-q", "-h", _folder.FullName])) is var asking && !Ended(asking!))
                {
                    Assert.True(patience.Elapsed < TimeSpan.FromSeconds(60), "PostgreSQL does not start.");
                    Thread.Sleep(50);
                }
            }

            return _folder;
        }
    }

    private string Data => Path.Combine(_folder!.FullName, "data");

    // Debian keeps the server's programs apart, by version; others have them in the path.
    private static string? Programs() =>
        (Directory.Exists("/usr/lib/postgresql") ? Directory.GetDirectories("/usr/lib/postgresql").Select(version => Path.Combine(version, "bin")) : [])
        .OrderDescending()
        .Concat((Environment.GetEnvironmentVariable("PATH") ?? "").Split(':'))
        .FirstOrDefault(folder => File.Exists(Path.Combine(folder, "initdb")) && File.Exists(Path.Combine(folder, "postgres")));

    // PostgreSQL refuses to run as root.
    private static string? User() =>
        Environment.UserName != "root" ? null : File.ReadLines("/etc/passwd").Any(line => line.StartsWith("postgres:", StringComparison.Ordinal)) ? "postgres" : "nobody";

    private static Process AsUser(string program, params string[] arguments)
    {
        var start = User() is { } user
            ? new ProcessStartInfo("runuser", ["-u", user, "--", program, .. arguments])
            : new ProcessStartInfo(program, arguments);
        start.RedirectStandardInput = start.RedirectStandardOutput = start.RedirectStandardError = true;
        start.WorkingDirectory = "/";
        var process = Process.Start(start)!;
        process.OutputDataReceived += (_, _) => { };
        process.ErrorDataReceived += (_, _) => { };
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        return process;
    }

    private static void Finish(Process process) => Assert.True(Ended(process), $"'{process.StartInfo.FileName} {string.Join(' ', process.StartInfo.ArgumentList)}' failed.");

    private static bool Ended(Process process)
    {
        using (process)
        {
            process.WaitForExit();
            return process.ExitCode == 0;
        }
    }

    private static Exception Skipped()
    {
        Assert.Skip("There is no PostgreSQL on this machine; install it (on Debian: apt-get install postgresql).");
        return new InvalidOperationException();
    }
}
