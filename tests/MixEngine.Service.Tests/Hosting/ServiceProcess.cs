using System.Diagnostics;
using System.Net.Sockets;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Hosting;

/// <summary>The service as a process of its own, as users run it.</summary>
internal sealed class ServiceProcess : IDisposable
{
    private readonly Process _process;
    private readonly Task<string> _errors;

    private ServiceProcess(Process process)
    {
        _process = process;
        _errors = process.StandardError.ReadToEndAsync();
    }

    public int Id => _process.Id;

    /// <summary>Starts it with these arguments.</summary>
    public static ServiceProcess Start(params string[] arguments) => new(Process.Start(
        new ProcessStartInfo(Path.Combine(AppContext.BaseDirectory, "MixEngine.Service"), arguments) { RedirectStandardError = true, RedirectStandardOutput = true })!);

    /// <summary>Starts it from a line of the shell, which finds the program in $0 and its arguments in $@.</summary>
    public static ServiceProcess StartBy(string line, params string[] arguments) => new(Process.Start(
        new ProcessStartInfo("/bin/sh", ["-c", line, Path.Combine(AppContext.BaseDirectory, "MixEngine.Service"), .. arguments]) { RedirectStandardError = true, RedirectStandardOutput = true })!);

    /// <summary>Starts it on a socket, and waits until it accepts: then it answers.</summary>
    public static async Task<ServiceProcess> StartReadyAsync(TemporaryFolder folder, params string[] arguments)
    {
        var service = Start(["--socket", folder.Socket, "--data", folder.Data, .. arguments]);
        await AcceptingAsync(folder.Socket);
        return service;
    }

    /// <summary>Waits until a socket accepts.</summary>
    public static Task AcceptingAsync(string socket) => Waiting.UntilAsync(() => Accepts(socket), "The service does not start.");

    /// <summary>Asks one question over a socket.</summary>
    public static async Task<ListShelvesResponse> AskAsync(string socket)
    {
        using var channel = UnixChannel.To(socket);
        return await new V1.Shelves.ShelvesClient(channel).ListShelvesAsync(new ListShelvesRequest());
    }

    /// <summary>How many of its threads have this name (Linux).</summary>
    public int Threads(string name) => Directory.EnumerateDirectories($"/proc/{Id}/task").Count(thread => File.ReadAllText(Path.Combine(thread, "comm")).Trim() == name);

    public void Kill() => _process.Kill();

    /// <summary>SIGTERM.</summary>
    public void Terminate() => Process.Start("kill", ["-TERM", _process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]).WaitForExit();

    /// <summary>Waits for its end.</summary>
    public async Task<(int ExitCode, string Errors)> EndAsync()
    {
        await _process.WaitForExitAsync(TestContext.Current.CancellationToken).WaitAsync(Waiting.Patience);
        return (_process.ExitCode, await _errors.WaitAsync(Waiting.Patience));
    }

    public void Dispose()
    {
        if (!_process.HasExited)
        {
            _process.Kill();
        }

        _process.Dispose();
    }

    private static bool Accepts(string path)
    {
        using var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
        try
        {
            socket.Connect(new UnixDomainSocketEndPoint(path));
            return true;
        }
        catch (SocketException)
        {
            return false;
        }
    }
}
