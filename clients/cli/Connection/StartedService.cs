using System.Collections;
using System.Diagnostics;
using System.Runtime.Versioning;

namespace MixEngine.Cli.Connection;

/// <summary>A service that this command has started, and that outlives it: in a session of its own, away from the terminal and its Ctrl-C.</summary>
internal abstract class StartedService
{
    /// <summary>Its process id.</summary>
    public abstract int Id { get; }

    /// <summary>Its exit code; null while it runs.</summary>
    public abstract int? ExitCode();

    /// <param name="program">The service.</param>
    /// <param name="arguments">Its options.</param>
    /// <param name="log">Where its standard output and error go.</param>
    public static StartedService Launch(ServiceProgram program, IReadOnlyList<string> arguments, string log) =>
        OperatingSystem.IsWindows() ? WindowsService.Start(program, arguments) : UnixService.Start(program, arguments, log);

    private sealed class WindowsService(Process process) : StartedService
    {
        public static WindowsService Start(ServiceProgram program, IReadOnlyList<string> arguments)
        {
            string[] command = [.. program.CommandLine, .. arguments];
            var start = new ProcessStartInfo(command[0], command[1..]) { UseShellExecute = false, CreateNoWindow = true };
            return new WindowsService(Process.Start(start) ?? throw new NoService($"{program.Path} could not be started."));
        }

        public override int Id => process.Id;

        public override int? ExitCode() => process.HasExited ? process.ExitCode : null;
    }

    [UnsupportedOSPlatform("windows")]
    private sealed class UnixService(int id) : StartedService
    {
        /// <summary>
        /// The shell points the three standard streams away from the terminal, lets go of whatever else a calling script had open
        /// (a pipe that stays open keeps the script waiting), and becomes the service.
        /// </summary>
        private const string Shell = "cd / && umask 077 && exec </dev/null >>\"$0\" 2>&1 3>&- 4>&- 5>&- 6>&- 7>&- 8>&- 9>&- && exec \"$@\"";

        private int? _exitCode;

        public static UnixService Start(ServiceProgram program, IReadOnlyList<string> arguments, string log)
        {
            string[] command = ["/bin/sh", "-c", Shell, log, .. program.CommandLine, .. arguments];
            int id = PosixProcess.SpawnInOwnSession(command, EnvironmentOfService());
            return new UnixService(id);
        }

        public override int Id => id;

        public override int? ExitCode() => _exitCode ??= PosixProcess.ExitCode(id);

        private static string[] EnvironmentOfService()
        {
            Dictionary<string, string> variables = Environment.GetEnvironmentVariables().Cast<DictionaryEntry>()
                .ToDictionary(entry => (string)entry.Key, entry => (string?)entry.Value ?? "");
            if (ServiceProgram.RuntimeFolder() is { } folder)
            {
                variables["DOTNET_ROOT"] = folder;
            }

            // It starts in another folder, and means the same files.
            foreach (string path in new[] { "MIXENGINE_HOME", "MIXENGINE_DATA", "MIXENGINE_CONFIG" }.Where(name => !string.IsNullOrWhiteSpace(variables.GetValueOrDefault(name))))
            {
                variables[path] = Path.GetFullPath(variables[path]);
            }
            return [.. variables.Select(variable => variable.Key + "=" + variable.Value)];
        }
    }
}
