using System.Diagnostics;

namespace MixEngine.Client.Tests;

/// <summary>The real service as several owners share it: TLS with a certificate of an authority of its own, and a key for every call.</summary>
public sealed class SharedService : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("mx-").FullName;
    private readonly RunningService _service;

    public SharedService()
    {
        TestAuthority.Issue(_folder);
        Key = NewKey();
        _service = new RunningService(_folder, "--https", $"127.0.0.1:{Port}", "--certificate", Path.Combine(_folder, "service.pem"), "--certificate-key", Path.Combine(_folder, "service.key"), "--require-key");
    }

    public int Port { get; } = RunningService.FreePort();

    public string Address => $"https://localhost:{Port}";

    /// <summary>A key that may write.</summary>
    public string Key { get; }

    /// <summary>The certificate of who issued the service's.</summary>
    public string Authority => Path.Combine(_folder, "authority.pem");

    public void Dispose() => _service.Dispose();

    // As whoever runs the service makes it.
    private string NewKey()
    {
        using var making = Process.Start(new ProcessStartInfo(RunningService.Program, ["key", "create", "--owner", "tide-guild", "--scope", "write", "--data", _folder]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var (key, words) = (making.StandardOutput.ReadToEnd(), making.StandardError.ReadToEnd());
        making.WaitForExit();
        Assert.True(making.ExitCode == 0, words);
        return key.Trim();
    }
}
