using System.Diagnostics;

namespace MixEngine.Replicas;

/// <summary>A PostgreSQL of our own on loopback, durable as it comes, in a temporary folder that is removed at the end.</summary>
internal sealed class Postgres : IDisposable
{
    private static readonly string? User = Environment.UserName != "root" ? null : "postgres";
    private readonly string _programs = Directory.GetDirectories("/usr/lib/postgresql").OrderDescending().Select(version => Path.Combine(version, "bin")).First();
    private readonly string _folder = Directory.CreateTempSubdirectory("mixengine-replicas-").FullName;
    private readonly int _port = Ports.Free();

    public Postgres()
    {
        if (User is not null)
        {
            Start("chown", User, _folder);
        }

        Run("initdb", "-D", Data, "-U", "sea", "-A", "trust", "--locale=C.UTF-8");
        Run("pg_ctl", "-D", Data, "-w", "-l", $"{Data}.log", "-o", $"-p {_port} -k {_folder} -c listen_addresses=127.0.0.1", "start");
        Run("createdb", "-h", _folder, "-p", $"{_port}", "-U", "sea", "sea");
    }

    public string ConnectionString => $"Host=127.0.0.1;Port={_port};Username=sea;Database=sea";

    private string Data => Path.Combine(_folder, "data");

    /// <summary>Cuts every connection, stops and starts.</summary>
    public void Restart() => Run("pg_ctl", "-D", Data, "-w", "-m", "fast", "-l", $"{Data}.log", "-o", $"-p {_port} -k {_folder} -c listen_addresses=127.0.0.1", "restart");

    /// <summary>The one value that a query returns.</summary>
    public string Ask(string sql) => Run("psql", "-h", _folder, "-p", $"{_port}", "-U", "sea", "-d", "sea", "-Atc", sql).Trim();

    public void Dispose()
    {
        Run("pg_ctl", "-D", Data, "-w", "-m", "fast", "stop");
        Directory.Delete(_folder, recursive: true);
    }

    private string Run(string program, params string[] arguments)
    {
        var path = Path.Combine(_programs, program);
        return User is null ? Start(path, arguments) : Start("runuser", ["-u", User, "--", path, .. arguments]);
    }

    private static string Start(string program, params string[] arguments)
    {
        // Read from a file: the server inherits the output of what starts it, and would keep a pipe open.
        var output = Path.GetTempFileName();
        try
        {
            using var process = Process.Start(new ProcessStartInfo("/bin/sh", ["-c", "out=$1; shift; exec \"$@\" >\"$out\" 2>&1 </dev/null", "sh", output, program, .. arguments]) { WorkingDirectory = "/" })!;
            process.WaitForExit();
            var text = File.ReadAllText(output);
            return process.ExitCode == 0 ? text : throw new InvalidOperationException($"{program} {string.Join(' ', arguments)} failed: {text}");
        }
        finally
        {
            File.Delete(output);
        }
    }
}
