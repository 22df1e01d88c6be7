using System.Net.Sockets;

namespace MixEngine.Cli.Connection;

/// <summary>Who listens at the other end of a Unix domain socket.</summary>
internal static class SocketPeer
{
    /// <summary>Its process id, as the system knows it (Linux: SO_PEERCRED of unix(7); macOS: LOCAL_PEERPID); null where the system does not tell.</summary>
    public static int? ProcessId(Socket socket)
    {
        Span<byte> answer = stackalloc byte[12];
        try
        {
            int length = OperatingSystem.IsLinux() ? socket.GetRawSocketOption(1, 17, answer)
                : OperatingSystem.IsMacOS() ? socket.GetRawSocketOption(0, 2, answer)
                : 0;
            return length >= 4 ? BitConverter.ToInt32(answer) : null;
        }
        catch (SocketException)
        {
            return null;
        }
    }
}
