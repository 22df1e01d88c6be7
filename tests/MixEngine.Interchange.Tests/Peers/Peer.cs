using System.ComponentModel;
using System.Diagnostics;
using System.Text;
using System.Text.Json;

namespace MixEngine.Interchange.Tests;

/// <summary>Runs peer.py, which reads and writes files with libraries other than ours. Skips the test where one is not installed.</summary>
internal static class Peer
{
    private const int NotInstalled = 3;

    /// <summary>What the other library reads in these bytes.</summary>
    public static JsonElement Read(string command, byte[] bytes)
    {
        string path = TemporaryFile(command);
        try
        {
            File.WriteAllBytes(path, bytes);
            return JsonDocument.Parse(Run(command, path, "")).RootElement;
        }
        finally
        {
            File.Delete(path);
        }
    }

    /// <summary>The file that the other library makes of these rows.</summary>
    public static byte[] Write(string command, IReadOnlyList<IReadOnlyList<object>> rows)
    {
        string path = TemporaryFile(command);
        try
        {
            Run(command, path, JsonSerializer.Serialize(rows));
            return File.ReadAllBytes(path);
        }
        finally
        {
            File.Delete(path);
        }
    }

    private static string TemporaryFile(string command) => Path.Combine(Path.GetTempPath(), $"{Guid.NewGuid():N}.{command.Split('-')[0]}");

    private static string Run(string command, string path, string input)
    {
        // Debian's own Python sees Debian's own packages; another may stand before it in the path.
        string python = File.Exists("/usr/bin/python3") ? "/usr/bin/python3" : "python3";
        var start = new ProcessStartInfo(python, [Path.Combine(AppContext.BaseDirectory, "peer.py"), command, path])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            StandardInputEncoding = new UTF8Encoding(false),
            StandardOutputEncoding = Encoding.UTF8,
        };
        try
        {
            using Process process = Process.Start(start)!;
            Task<string> errors = process.StandardError.ReadToEndAsync();
            process.StandardInput.Write(input);
            process.StandardInput.Close();
            string output = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            Assert.SkipWhen(process.ExitCode == NotInstalled, errors.Result.Trim());
            Assert.True(process.ExitCode == 0, errors.Result);
            return output;
        }
        catch (Win32Exception)
        {
            Assert.Skip("python3 is not installed");
            throw;
        }
    }
}
