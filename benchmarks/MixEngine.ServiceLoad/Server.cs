using System.Diagnostics;
using System.Globalization;
using System.Net.Sockets;
using Grpc.Net.Client;

namespace MixEngine.ServiceLoad;

/// <summary>A service in a process of its own, with a client's channels to its socket.</summary>
internal sealed class Server : IDisposable
{
    private readonly DirectoryInfo _folder;
    private readonly Process _process;

    private Server(DirectoryInfo folder, IEnumerable<string> words)
    {
        _folder = folder;
        Socket = Path.Combine(folder.FullName, "s");
        _process = Process.Start(new ProcessStartInfo("dotnet", [.. words.Select(word => word.Replace("{folder}", folder.FullName, StringComparison.Ordinal))])
        {
            RedirectStandardError = true,
        })!;
        _process.ErrorDataReceived += (_, line) => LastError = line.Data ?? LastError;
        _process.BeginErrorReadLine();
    }

    public string Socket { get; }

    public string LastError { get; private set; } = "";

    public bool HasExited => _process.HasExited;

    /// <summary>The service as painters run it.</summary>
    public static Task<Server> StartServiceAsync() =>
        StartAsync([Path.Combine(AppContext.BaseDirectory, "MixEngine.Service.dll"), "--socket", "{folder}/s", "--data", "{folder}/data", "--idle-minutes", "0"]);

    /// <summary>The empty echo.</summary>
    public static Task<Server> StartEchoAsync() =>
        StartAsync([Path.Combine(AppContext.BaseDirectory, "MixEngine.ServiceLoad.dll"), "echo", "{folder}/s"]);

    public GrpcChannel Channel() => GrpcChannel.ForAddress("http://localhost", new GrpcChannelOptions
    {
        HttpHandler = new SocketsHttpHandler
        {
            ConnectCallback = async (_, cancel) =>
            {
                var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
                try
                {
                    await socket.ConnectAsync(new UnixDomainSocketEndPoint(Socket), cancel);
                    return new NetworkStream(socket, ownsSocket: true);
                }
                catch
                {
                    socket.Dispose();
                    throw;
                }
            },
        },
        DisposeHttpClient = true,
    });

    /// <summary>What the process holds now, as Linux tells it.</summary>
    public (double MemoryMb, int Handles, int Threads) Holds()
    {
        var process = $"/proc/{_process.Id}";
        var status = File.ReadLines($"{process}/status").Select(line => line.Split(':', 2)).ToDictionary(pair => pair[0], pair => pair[1].Trim());
        var kilobytes = double.Parse(status["VmRSS"].Split(' ')[0], CultureInfo.InvariantCulture);
        return (kilobytes / 1024, Directory.EnumerateFileSystemEntries($"{process}/fd").Count(), int.Parse(status["Threads"], CultureInfo.InvariantCulture));
    }

    /// <summary>CPU time spent so far.</summary>
    public TimeSpan Cpu()
    {
        _process.Refresh();
        return _process.TotalProcessorTime;
    }

    public void Dispose()
    {
        if (!_process.HasExited)
        {
            _process.Kill();
            _process.WaitForExit();
        }

        _process.Dispose();
        _folder.Delete(recursive: true);
    }

    private static async Task<Server> StartAsync(IReadOnlyList<string> words)
    {
        var server = new Server(Directory.CreateTempSubdirectory("mixload"), words);
        for (var patience = Stopwatch.StartNew(); !File.Exists(server.Socket); await Task.Delay(50))
        {
            if (server.HasExited || patience.Elapsed > TimeSpan.FromSeconds(60))
            {
                var said = server.LastError;
                server.Dispose();
                throw new InvalidOperationException($"The server did not start: {said}");
            }
        }

        return server;
    }
}
