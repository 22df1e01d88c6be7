using System.Diagnostics;

namespace MixEngine.Spreadsheet.Tests;

/// <summary>One run of a program of the machine in the repository, and what it printed.</summary>
internal sealed record ToolRun(int ExitCode, string Output)
{
    /// <summary>The repository: the folder that holds the folder of build outputs, in which these tests run.</summary>
    public static string Repository { get; } = Directory.GetParent(AppContext.BaseDirectory[..AppContext.BaseDirectory.IndexOf(".artifacts", StringComparison.Ordinal)] + ".artifacts")!.FullName;

    /// <summary>"debug" or "release": that of these tests.</summary>
    public static string Configuration { get; } = Path.GetFileName(AppContext.BaseDirectory.TrimEnd(Path.DirectorySeparatorChar));

    /// <summary>Whether such a program is on the PATH.</summary>
    public static bool Has(string program) => (Environment.GetEnvironmentVariable("PATH") ?? "")
        .Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
        .Any(folder => File.Exists(Path.Combine(folder, program)));

    /// <summary>Runs a program to its end; it ends with the test.</summary>
    public static async Task<ToolRun> OfAsync(string folder, string program, params string[] arguments)
    {
        var start = new ProcessStartInfo(program, arguments)
        {
            WorkingDirectory = Path.Combine(Repository, folder),
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.Environment["MIXENGINE_ROOT"] = Repository;
        start.Environment["MIXENGINE_CONFIGURATION"] = Configuration;
        start.Environment["PYTHONDONTWRITEBYTECODE"] = "1";
        using var process = Process.Start(start)!;
        var output = process.StandardOutput.ReadToEndAsync();
        var errors = process.StandardError.ReadToEndAsync();
        try
        {
            await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        }
        catch (OperationCanceledException)
        {
            process.Kill(entireProcessTree: true);
            throw;
        }

        return new ToolRun(process.ExitCode, await output + await errors);
    }
}
