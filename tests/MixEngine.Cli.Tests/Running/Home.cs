using System.Diagnostics;
using System.Globalization;
using System.Text;

namespace MixEngine.Cli.Tests.Running;

/// <summary>A home of its own for the command and its service: nothing of the user's is touched, and nothing is left running.</summary>
public sealed class Home : IDisposable
{
    private static readonly string[] Inherited = ["PATH", "HOME", "DOTNET_ROOT", "TMPDIR", "LANG"];

    /// <summary>The command as it was built with these tests.</summary>
    public static string Command { get; } = Built("MixEngine.Cli", "mixengine");

    /// <summary>The service's program of the same build.</summary>
    public static string ServiceProgram { get; } = Built("MixEngine.Service", "MixEngine.Service");

    /// <summary>Short, since a socket's path may be no longer than about a hundred bytes.</summary>
    public string Folder { get; } = Directory.CreateTempSubdirectory("mx").FullName;

    public string Socket => Path.Combine(Folder, "run", "service.sock");

    /// <summary>Environment variables for the command besides its home.</summary>
    public Dictionary<string, string> Variables { get; } = [];

    /// <summary>The service that a command started in the background; null: none.</summary>
    public int? BackgroundService =>
        File.Exists(Socket + ".starting") && int.TryParse(File.ReadAllText(Socket + ".starting"), CultureInfo.InvariantCulture, out int id) ? id : null;

    /// <summary>Runs one command to its end.</summary>
    public Task<Outcome> RunAsync(params string[] arguments) => FinishAsync(Start(Command, arguments));

    public async Task<Outcome> RunWithInputAsync(string input, params string[] arguments)
    {
        Process process = Start(Command, arguments);
        await process.StandardInput.WriteAsync(input);
        return await FinishAsync(process);
    }

    /// <summary>Starts any program in this home.</summary>
    public Process Start(string program, params string[] arguments)
    {
        var start = new ProcessStartInfo(program, arguments)
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            StandardOutputEncoding = Encoding.UTF8,
            StandardErrorEncoding = Encoding.UTF8,
            WorkingDirectory = Folder,
        };
        Dictionary<string, string?> inherited = Inherited.ToDictionary(name => name, Environment.GetEnvironmentVariable);
        start.Environment.Clear();
        foreach ((string name, string? value) in inherited.Where(variable => variable.Value is not null))
        {
            start.Environment[name] = value;
        }
        start.Environment["MIXENGINE_HOME"] = Folder;
        foreach ((string name, string value) in Variables)
        {
            start.Environment[name] = value;
        }
        return Process.Start(start)!;
    }

    /// <summary>Starts a program that hears Ctrl-C, even where the tests run in the background, whose programs pass it over.</summary>
    public Process StartHearingCtrlC(string program, params string[] arguments) => Start("env", ["--default-signal=INT", program, .. arguments]);

    public static async Task<Outcome> FinishAsync(Process process)
    {
        using (process)
        {
            using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(90));
            process.StandardInput.Close();
            Task<string> output = process.StandardOutput.ReadToEndAsync(limit.Token);
            Task<string> error = process.StandardError.ReadToEndAsync(limit.Token);
            await process.WaitForExitAsync(limit.Token);
            return new Outcome(process.ExitCode, await output, await error);
        }
    }

    /// <summary>A file in the home.</summary>
    public string Write(string name, string text)
    {
        string path = Path.Combine(Folder, name);
        File.WriteAllText(path, text);
        return path;
    }

    public void KillService()
    {
        if (BackgroundService is { } id)
        {
            try
            {
                using Process service = Process.GetProcessById(id);
                service.Kill();
                service.WaitForExit(10_000);
            }
            catch (ArgumentException)
            {
                // It has ended.
            }
        }
    }

    public void Dispose()
    {
        KillService();
        Directory.Delete(Folder, recursive: true);
    }

    /// <summary>The sibling folder of the same configuration: .artifacts/bin/PROJECT/debug.</summary>
    private static string Built(string project, string program)
    {
        string here = AppContext.BaseDirectory.TrimEnd(Path.DirectorySeparatorChar);
        return Path.GetFullPath(Path.Combine(here, "..", "..", project, Path.GetFileName(here), program));
    }
}
