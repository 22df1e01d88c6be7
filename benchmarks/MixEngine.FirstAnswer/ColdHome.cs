using System.Diagnostics;
using System.Globalization;

namespace MixEngine.FirstAnswer;

/// <summary>One way to run the command.</summary>
/// <param name="Name">Shown in the table.</param>
/// <param name="Words">The program and what stands before the arguments.</param>
/// <param name="Published">The folder that holds the service.</param>
internal sealed record Command(string Name, string[] Words, string Published);

/// <summary>A home of its own, with a shelf, whose service can be ended between two runs.</summary>
internal sealed class ColdHome : IDisposable
{
    private const string Shelf = "name,hex,opacity\nblack,#141414,opaque\nwhite,#f2f2f0,opaque\nolive,#5a6b3c,semi-opaque\n";

    private readonly string _folder = Directory.CreateTempSubdirectory("mx").FullName;

    public void Prepare(Command command)
    {
        string table = Path.Combine(_folder, "shelf.csv");
        File.WriteAllText(table, Shelf);
        Run(command, "shelf", "import", table);
    }

    /// <summary>Asks one question, from the start of the process to its end.</summary>
    public TimeSpan Ask(Command command)
    {
        long start = Stopwatch.GetTimestamp();
        Run(command, "predict", "2 black + 1 white", "--json");
        return Stopwatch.GetElapsedTime(start);
    }

    public void EndService()
    {
        string record = Path.Combine(_folder, "run", "service.sock.starting");
        if (!File.Exists(record) || !int.TryParse(File.ReadAllText(record), CultureInfo.InvariantCulture, out int id))
        {
            return;
        }
        try
        {
            using Process service = Process.GetProcessById(id);
            service.Kill();
            service.WaitForExit();
        }
        catch (ArgumentException)
        {
            // It has ended.
        }
    }

    public void Dispose()
    {
        EndService();
        Directory.Delete(_folder, recursive: true);
    }

    private void Run(Command command, params string[] arguments)
    {
        string[] words = [.. command.Words, .. arguments];
        var start = new ProcessStartInfo(words[0], words[1..]) { RedirectStandardOutput = true };
        start.Environment["MIXENGINE_HOME"] = _folder;
        start.Environment["MIXENGINE_SERVICE"] = Path.Combine(command.Published, "service", OperatingSystem.IsWindows() ? "MixEngine.Service.exe" : "MixEngine.Service");
        using Process process = Process.Start(start)!;
        process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        if (process.ExitCode != 0)
        {
            throw new InvalidOperationException($"{string.Join(' ', words)} ended with {process.ExitCode}.");
        }
    }
}
