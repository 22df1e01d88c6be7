namespace MixEngine.Service.Hosting;

/// <summary>
/// The right to answer on a socket: held by one process at a time, and given up when that process ends, however it ends.
/// </summary>
/// <remarks>
/// The lock is the operating system's on a file beside the socket. The file itself stays: were it deleted, a second process could
/// hold the deleted one while a third makes and holds another.
/// </remarks>
public sealed class SocketLock : IDisposable
{
    private readonly FileStream _file;
    private readonly string _socketPath;

    private SocketLock(FileStream file, string socketPath) => (_file, _socketPath) = (file, socketPath);

    /// <summary>Takes the lock, and removes the socket that a killed service left behind. Null: another process holds it.</summary>
    /// <exception cref="IOException">The folder or the file cannot be made.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder or the file belongs to somebody else.</exception>
    public static SocketLock? TryTake(string socketPath, string lockPath)
    {
        PrivateFiles.CreateDirectory(Path.GetDirectoryName(socketPath)!);
        try
        {
            var file = new FileStream(lockPath, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
            File.Delete(socketPath);
            return new SocketLock(file, socketPath);
        }
        catch (IOException e) when (IsHeldElsewhere(e))
        {
            return null;
        }
    }

    /// <summary>Removes the socket, then gives up the lock.</summary>
    public void Dispose()
    {
        File.Delete(_socketPath);
        _file.Dispose();
    }

    // EWOULDBLOCK of Linux, of macOS, and ERROR_SHARING_VIOLATION of Windows.
    private static bool IsHeldElsewhere(IOException e) => e.HResult is 11 or 35 or unchecked((int)0x80070020);
}
