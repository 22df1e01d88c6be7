using System.Diagnostics;

namespace MixEngine.Benchmarks;

/// <summary>A program of another package, run beside ours.</summary>
internal static class Child
{
    /// <summary>What it prints; null where it is not there or fails, which is then said on the error output.</summary>
    public static string? Run(string program, string arguments, string folder)
    {
        try
        {
            using var process = Process.Start(new ProcessStartInfo(program, arguments) { WorkingDirectory = folder, RedirectStandardOutput = true })!;
            var text = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            return process.ExitCode == 0 ? text : null;
        }
        catch (System.ComponentModel.Win32Exception error)
        {
            Console.Error.WriteLine($"{program}: {error.Message}");
            return null;
        }
    }
}
