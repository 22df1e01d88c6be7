using System.Diagnostics;

namespace MixEngine.Replicas;

/// <summary>One process of the service on the shared database.</summary>
internal sealed class Replica : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("mx-").FullName;
    private readonly int _port = Ports.Free();
    private readonly Process _process;

    public Replica(string database)
    {
        var here = AppContext.BaseDirectory.TrimEnd('/');
        var program = Path.GetFullPath(Path.Combine(here, "..", "..", "MixEngine.Service", Path.GetFileName(here), "MixEngine.Service"));
        _process = Process.Start(new ProcessStartInfo(
            program, ["--socket", Path.Combine(_folder, "s.sock"), "--data", Path.Combine(_folder, "data"), "--grpc", $"127.0.0.1:{_port}", "--database", database]) { RedirectStandardError = true, RedirectStandardOutput = true })!;
        _process.ErrorDataReceived += (_, _) => { };
        _process.BeginErrorReadLine();
        _process.OutputDataReceived += (_, _) => { };
        _process.BeginOutputReadLine();
    }

    public Uri Address => new($"http://127.0.0.1:{_port}");

    /// <summary>SIGKILL.</summary>
    public void Kill() => _process.Kill();

    /// <summary>SIGTERM: it finishes what it can, and hands the rest back.</summary>
    public void Drain() => Process.Start("kill", ["-TERM", $"{_process.Id}"]).WaitForExit();

    /// <summary>Its exit code once it has ended.</summary>
    public async Task<int> EndAsync()
    {
        await _process.WaitForExitAsync();
        return _process.ExitCode;
    }

    public void Dispose()
    {
        if (!_process.HasExited)
        {
            _process.Kill();
            _process.WaitForExit();
        }

        _process.Dispose();
        Directory.Delete(_folder, recursive: true);
    }
}
