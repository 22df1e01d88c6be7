using System.Diagnostics;

namespace MixEngine.Contracts.Tests;

/// <summary>Programs of others, from npm, that judge the contract: buf, a validator of OpenAPI, a validator of JSON schemas.</summary>
internal static class Tools
{
    private static readonly string Folder = Path.Combine(Repository.Artifacts, "contract-tools");
    private static readonly SemaphoreSlim Turn = new(1);

    /// <summary>Runs a script of the folder Tools, or a program that npm installed.</summary>
    public static async Task<(int ExitCode, string Output)> RunAsync(string program, params string[] arguments)
    {
        Assert.SkipUnless(Has("node") && Has("npm"), "Node.js is not installed: apt-get install nodejs npm.");
        await InstallAsync();
        return program.EndsWith(".mjs", StringComparison.Ordinal)
            ? await ProcessAsync("node", [program, .. arguments])
            : await ProcessAsync(Path.Combine(Folder, "node_modules", ".bin", program), arguments);
    }

    private static async Task InstallAsync()
    {
        await Turn.WaitAsync(TestContext.Current.CancellationToken);
        try
        {
            Directory.CreateDirectory(Folder);
            var sources = Path.Combine(Repository.Root, "tests", "MixEngine.Contracts.Tests", "Tools");
            var locked = Path.Combine(Folder, "package-lock.json");
            var same = File.Exists(locked) && File.ReadAllText(locked) == File.ReadAllText(Path.Combine(sources, "package-lock.json"));
            foreach (var file in Directory.EnumerateFiles(sources))
            {
                File.Copy(file, Path.Combine(Folder, Path.GetFileName(file)), overwrite: true);
            }

            // npm writes this file last: an installation that was broken off is made again.
            if (!same || !File.Exists(Path.Combine(Folder, "node_modules", ".package-lock.json")))
            {
                var (exitCode, output) = await ProcessAsync("npm", ["ci", "--no-audit", "--no-fund", "--ignore-scripts"]);
                Assert.True(exitCode == 0, output);
            }
        }
        finally
        {
            Turn.Release();
        }
    }

    private static bool Has(string program) => (Environment.GetEnvironmentVariable("PATH") ?? "")
        .Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
        .Any(folder => File.Exists(Path.Combine(folder, program)));

    private static async Task<(int ExitCode, string Output)> ProcessAsync(string program, IEnumerable<string> arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { WorkingDirectory = Folder, RedirectStandardOutput = true, RedirectStandardError = true })!;
        var (output, errors) = (process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
        try
        {
            await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        }
        catch (OperationCanceledException)
        {
            process.Kill(entireProcessTree: true);
            throw;
        }

        return (process.ExitCode, await output + await errors);
    }
}
