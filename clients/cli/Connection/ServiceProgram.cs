using System.Diagnostics;

namespace MixEngine.Cli.Connection;

/// <summary>The service's program file.</summary>
/// <param name="Path">An executable, or a .dll that dotnet runs.</param>
internal sealed record ServiceProgram(string Path)
{
    /// <summary>Exit code of a service that found its socket taken by another.</summary>
    public const int SocketIsTaken = 4;

    private const string Name = "MixEngine.Service";

    /// <summary>What is started: the program itself, or dotnet with it.</summary>
    public IReadOnlyList<string> CommandLine => Path.EndsWith(".dll", StringComparison.OrdinalIgnoreCase) ? [DotNet() ?? "dotnet", Path] : [Path];

    /// <summary>The service named in MIXENGINE_SERVICE, else the installed one beside this command, else the one of the same build.</summary>
    /// <exception cref="NoService">There is none.</exception>
    public static ServiceProgram Find()
    {
        if (Environment.GetEnvironmentVariable("MIXENGINE_SERVICE") is { Length: > 0 } named)
        {
            string full = System.IO.Path.GetFullPath(named);
            return File.Exists(full)
                ? new ServiceProgram(full)
                : throw new NoService($"MIXENGINE_SERVICE names {full}, and there is no such file. Name the service's program, or unset the variable.");
        }

        string here = AppContext.BaseDirectory.TrimEnd(System.IO.Path.DirectorySeparatorChar);
        string executable = OperatingSystem.IsWindows() ? Name + ".exe" : Name;
        string? found = Places(here).Select(folder => System.IO.Path.Combine(folder, executable)).FirstOrDefault(File.Exists);
        return found is not null
            ? new ServiceProgram(System.IO.Path.GetFullPath(found))
            : throw new NoService($"The service's program, {executable}, is not beside this command in {System.IO.Path.Combine(here, "service")}.\n"
                + "Copy the whole folder that was published, or name the program in the environment variable MIXENGINE_SERVICE,\n"
                + "or name a service that runs elsewhere with --server.");
    }

    /// <summary>Has the service's program do something at once, with this command's own input and output.</summary>
    /// <returns>Its exit code.</returns>
    /// <exception cref="NoService">It cannot be started.</exception>
    public static async Task<int> RunAsync(IEnumerable<string> arguments, CancellationToken cancel)
    {
        ServiceProgram program = Find();
        string[] command = [.. program.CommandLine, .. arguments];
        var start = new ProcessStartInfo(command[0], command[1..]) { UseShellExecute = false };
        if (RuntimeFolder() is { } runtime)
        {
            start.Environment["DOTNET_ROOT"] = runtime;
        }
        try
        {
            using Process process = Process.Start(start)!;
            await process.WaitForExitAsync(cancel);
            return process.ExitCode;
        }
        catch (System.ComponentModel.Win32Exception e)
        {
            throw new NoService($"{program.Path} could not be started: {e.Message}", e);
        }
    }

    /// <summary>
    /// A folder for DOTNET_ROOT, where the installed runtime would otherwise not be found: it is known by the PATH alone.
    /// Null where nothing need be said.
    /// </summary>
    public static string? RuntimeFolder() =>
        Environment.GetEnvironmentVariable("DOTNET_ROOT") is null && DotNet() is { } program
        && System.IO.Path.GetDirectoryName(program) is { } folder
        && Directory.Exists(System.IO.Path.Combine(folder, "host", "fxr"))
            ? folder
            : null;

    private static IEnumerable<string> Places(string here)
    {
        // Installed.
        yield return System.IO.Path.Combine(here, "service");
        yield return here;

        // Built: .artifacts/bin/MixEngine.Cli/debug, and the service's folder of the same or another configuration.
        string built = System.IO.Path.Combine(here, "..", "..", Name);
        yield return System.IO.Path.Combine(built, System.IO.Path.GetFileName(here));
        yield return System.IO.Path.Combine(built, "debug");
        yield return System.IO.Path.Combine(built, "release");
    }

    private static string? DotNet()
    {
        string name = OperatingSystem.IsWindows() ? "dotnet.exe" : "dotnet";
        string? onPath = (Environment.GetEnvironmentVariable("PATH") ?? "")
            .Split(System.IO.Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
            .Select(folder => System.IO.Path.Combine(folder, name))
            .FirstOrDefault(File.Exists);
        return onPath is null ? null : File.ResolveLinkTarget(onPath, returnFinalTarget: true)?.FullName ?? System.IO.Path.GetFullPath(onPath);
    }
}
