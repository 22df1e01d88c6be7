using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using MixEngine.Contracts.Tests;

namespace MixEngine.Client.Tests;

/// <summary>The real service as a process of its own, on loopback and on a socket; it can be killed and started again on the same data.</summary>
public sealed class RunningService : IDisposable
{
    private readonly string _folder;
    private readonly string[] _more;
    private Process? _process;

    /// <summary>Starts it, and waits until it answers.</summary>
    public RunningService()
        : this(Directory.CreateTempSubdirectory("mx-").FullName)
    {
    }

    /// <param name="folder">Its data's folder, which goes with it.</param>
    /// <param name="more">Further options.</param>
    internal RunningService(string folder, params string[] more)
    {
        (_folder, _more) = (folder, more);
        Start();

        // The socket is the last of what it listens on.
        for (var patience = Stopwatch.StartNew(); !Accepts(); Thread.Sleep(30))
        {
            Assert.True(patience.Elapsed < TimeSpan.FromSeconds(60), "The service does not start.");
        }
    }

    /// <summary>The service's program.</summary>
    internal static string Program => Path.Combine(Repository.Built("MixEngine.Service"), "MixEngine.Service");

    public string Http { get; } = $"127.0.0.1:{FreePort()}";

    public string Grpc { get; } = $"127.0.0.1:{FreePort()}";

    public string SocketPath => Path.Combine(_folder, "s.sock");

    /// <summary>Starts it; it need not answer yet.</summary>
    public void Start()
    {
        _process = Process.Start(new ProcessStartInfo(
            Program,
            ["--socket", SocketPath, "--data", _folder, "--http", Http, "--grpc", Grpc, .. _more]) { RedirectStandardError = true })!;
        _process.ErrorDataReceived += (_, _) => { };
        _process.BeginErrorReadLine();
    }

    /// <summary>Kills it without warning.</summary>
    public void Kill()
    {
        _process!.Kill();
        _process.WaitForExit();
        _process.Dispose();
    }

    public void Dispose()
    {
        Kill();
        Directory.Delete(_folder, recursive: true);
    }

    private bool Accepts()
    {
        using var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
        try
        {
            socket.Connect(new UnixDomainSocketEndPoint(SocketPath));
            return true;
        }
        catch (SocketException)
        {
            return false;
        }
    }

    internal static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
