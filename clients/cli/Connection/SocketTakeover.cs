namespace MixEngine.Cli.Connection;

/// <summary>Frees a socket for a service in the foreground, or for work on its data: one that a command started in the background gives way, any other does not.</summary>
internal static class SocketTakeover
{
    private static readonly TimeSpan BetweenLooks = TimeSpan.FromMilliseconds(20);

    /// <returns>The right to start a service there.</returns>
    /// <exception cref="Refusal">Another service answers there.</exception>
    public static async Task<StartTurn> TakeAsync(string socketPath, CancellationToken cancel)
    {
        StartTurn? turn;
        while ((turn = StartTurn.TryTake(socketPath)) is null)
        {
            await Task.Delay(BetweenLooks, cancel);
        }
        try
        {
            await EndBackgroundServiceAsync(socketPath, turn.BackgroundService, cancel);
            turn.BackgroundService = null;
            return turn;
        }
        catch
        {
            turn.Dispose();
            throw;
        }
    }

    private static async Task EndBackgroundServiceAsync(string socketPath, int? background, CancellationToken cancel)
    {
        if (await LocalService.TryConnectAsync(socketPath, cancel) is not { } connection)
        {
            return;
        }
        int? listener = SocketPeer.ProcessId(connection.Socket);
        await connection.DisposeAsync();
        if (OperatingSystem.IsWindows() || listener is null || listener != background)
        {
            throw new Refusal($"A service already answers at unix:{socketPath}.\n"
                + (listener is null ? "End it first" : $"End it first (kill {listener})") + ", or give this one its own --socket and --data.");
        }

        Console.Error.WriteLine($"The service in the background (process {listener}) ends; this command takes its place.");
        _ = PosixProcess.Signal(listener.Value, PosixProcess.Terminate);
        while (IsHeld(socketPath + ".lock"))
        {
            await Task.Delay(BetweenLooks, cancel);
        }
    }

    /// <summary>Whether a service holds its socket's lock. It does so until it has ended.</summary>
    private static bool IsHeld(string lockPath)
    {
        try
        {
            using var file = new FileStream(lockPath, FileMode.Open, FileAccess.ReadWrite, FileShare.None);
            return false;
        }
        catch (FileNotFoundException)
        {
            return false;
        }
        catch (IOException)
        {
            return true;
        }
    }
}
