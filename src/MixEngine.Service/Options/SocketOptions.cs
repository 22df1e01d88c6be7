using System.Text;

namespace MixEngine.Service.Options;

/// <summary>The Unix domain socket on which this user's clients reach the service. HTTP/2, gRPC.</summary>
public sealed class SocketOptions
{
    /// <summary>Most bytes of a socket's path: operating systems keep 104 to 108 for it, the closing zero included.</summary>
    public const int LongestPathBytes = 100;

    /// <summary>The socket's file. Its folder is made where there is none, for this user alone.</summary>
    public required string Path { get; init; }

    /// <summary>The file that the one service of this socket holds locked.</summary>
    public string LockPath => Path + ".lock";

    /// <summary>What is wrong with these options, in plain words.</summary>
    public IEnumerable<OptionFault> Faults()
    {
        var bytes = Encoding.UTF8.GetByteCount(Path);
        if (bytes > LongestPathBytes)
        {
            yield return new OptionFault("socket", $"'{Path}' has {bytes} bytes; a socket's path may have {LongestPathBytes}. Name a shorter one, or set MIXENGINE_SOCKET.");
        }

        if (Directory.Exists(Path))
        {
            yield return new OptionFault("socket", $"'{Path}' is a folder; name a file in it, such as '{System.IO.Path.Combine(Path, "service.sock")}'.");
        }
    }
}
