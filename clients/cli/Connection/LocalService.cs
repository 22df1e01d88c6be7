using System.Diagnostics;
using System.Net.Sockets;

namespace MixEngine.Cli.Connection;

/// <summary>This user's own service: found where it listens, or started.</summary>
internal sealed class LocalService(ServicePlace place)
{
    /// <summary>How long a service may take until it answers. A cold machine takes a few seconds.</summary>
    private static readonly TimeSpan LongestStart = TimeSpan.FromSeconds(60);

    /// <summary>The log begins anew beyond this; the one before is kept.</summary>
    private const int LargestLog = 1 << 20;

    private static readonly TimeSpan BetweenLooks = TimeSpan.FromMilliseconds(15);

    /// <summary>A connection to the service, which is started where none listens.</summary>
    /// <exception cref="NoService">It could not be started, or did not answer in time.</exception>
    public async ValueTask<Stream> ConnectAsync(CancellationToken cancel)
    {
        // Mostly it is there.
        if (await TryConnectAsync(cancel) is { } connected)
        {
            return connected;
        }

        PrepareFolders();
        long start = Stopwatch.GetTimestamp();
        while (Stopwatch.GetElapsedTime(start) < LongestStart)
        {
            // One command starts it; the others look again until it listens, or until that command is gone.
            using StartTurn? turn = StartTurn.TryTake(place.Socket);
            if (turn is not null)
            {
                return await TryConnectAsync(cancel) ?? await StartAsync(turn, start, cancel);
            }
            await Task.Delay(BetweenLooks, cancel);
            if (await TryConnectAsync(cancel) is { } started)
            {
                return started;
            }
        }
        throw TookTooLong();
    }

    /// <summary>A connection; null where nobody listens: no socket, or one that a killed service left behind.</summary>
    public static async ValueTask<NetworkStream?> TryConnectAsync(string socketPath, CancellationToken cancel)
    {
        var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
        try
        {
            await socket.ConnectAsync(new UnixDomainSocketEndPoint(socketPath), cancel);
            return new NetworkStream(socket, ownsSocket: true);
        }
        catch (SocketException e)
        {
            socket.Dispose();
            return e.SocketErrorCode == SocketError.AccessDenied
                ? throw new NoService($"The socket {socketPath} belongs to another user, or its folder may not be entered. "
                    + "Name a place of your own in the environment variable MIXENGINE_HOME.")
                : null;
        }
        catch
        {
            socket.Dispose();
            throw;
        }
    }

    private ValueTask<NetworkStream?> TryConnectAsync(CancellationToken cancel) => TryConnectAsync(place.Socket, cancel);

    private async Task<Stream> StartAsync(StartTurn turn, long start, CancellationToken cancel)
    {
        ServiceProgram program = ServiceProgram.Find();
        StartedService service = Launch(program, turn);
        while (Stopwatch.GetElapsedTime(start) < LongestStart)
        {
            if (await TryConnectAsync(cancel) is { } connected)
            {
                return connected;
            }
            if (service.ExitCode() is int code)
            {
                // Another one holds the socket and does not listen: it is just starting, or just ending. Then this place is free soon.
                if (code != ServiceProgram.SocketIsTaken)
                {
                    throw new NoService($"The service ended as soon as it was started (exit code {code}).\n{LastWords()}");
                }
                await Task.Delay(BetweenLooks * 10, cancel);
                service = Launch(program, turn);
            }
            await Task.Delay(BetweenLooks, cancel);
        }
        throw TookTooLong();
    }

    private StartedService Launch(ServiceProgram program, StartTurn turn)
    {
        if (File.Exists(place.Log) && new FileInfo(place.Log).Length > LargestLog)
        {
            File.Move(place.Log, place.Log + ".1", overwrite: true);
        }

        // Where its data lies the settings say, in the environment and the file, as they do for the commands that work on it.
        var service = StartedService.Launch(program, ["--socket", place.Socket, "--idle-minutes", "15"], place.Log);
        turn.BackgroundService = service.Id;
        return service;
    }

    private void PrepareFolders()
    {
        try
        {
            foreach (string folder in new[] { place.Data, Path.GetDirectoryName(place.Socket)!, Path.GetDirectoryName(place.Log)! })
            {
                OwnFolder.Create(folder);
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new NoService($"The folders of the local service cannot be made: {e.Message}\n"
                + "Name a folder that you may write to in the environment variable MIXENGINE_HOME.", e);
        }
    }

    private NoService TookTooLong() => new(
        $"The service did not answer within {LongestStart.TotalSeconds:0} seconds of its start.\n{LastWords()}");

    private string LastWords()
    {
        try
        {
            string[] last = File.ReadLines(place.Log).Where(line => line.Trim().Length > 0 && !line.StartsWith("   at ", StringComparison.Ordinal)).TakeLast(3).ToArray();
            return $"Its log, {place.Log}, {(last.Length == 0 ? "says nothing." : "ends so:\n" + string.Join('\n', last.Select(line => "  " + line)))}";
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return $"Its log would be {place.Log}.";
        }
    }
}
