namespace MixEngine.Cli.Connection;

/// <summary>The address given to --server: a Unix domain socket, or a port that speaks HTTP/2.</summary>
/// <param name="Text">As its user wrote it.</param>
/// <param name="SocketPath">The socket, absolute; null for a port.</param>
/// <param name="Uri">The port; null for a socket.</param>
internal sealed record ServerAddress(string Text, string? SocketPath, Uri? Uri)
{
    /// <summary>Reads unix:/path, http://host:port, https://host:port or host:port.</summary>
    /// <exception cref="Refusal">It is none of these.</exception>
    public static ServerAddress Parse(string text)
    {
        if (text.StartsWith("unix:", StringComparison.OrdinalIgnoreCase))
        {
            string path = text["unix:".Length..];
            // "unix:///run/x" is the same path written as a URI.
            path = path.StartsWith("///", StringComparison.Ordinal) ? path[2..] : path;
            return path.Length > 0 ? new ServerAddress(text, ServicePlace.CheckedSocket(path), null) : throw NotAnAddress(text);
        }

        bool hasScheme = text.Contains("://", StringComparison.Ordinal);
        bool isUri = Uri.TryCreate(hasScheme ? text : "http://" + text, UriKind.Absolute, out Uri? uri)
            && uri.Scheme is "http" or "https"
            && uri is { Host.Length: > 0, PathAndQuery: "/", UserInfo: "" };
        bool namesPort = isUri && (hasScheme || text.EndsWith(":" + uri!.Port.ToString(Numerals.Invariant), StringComparison.Ordinal));
        return namesPort ? new ServerAddress(text, null, uri) : throw NotAnAddress(text);
    }

    private static Refusal NotAnAddress(string text) => new(
        $"--server: \"{text}\" is not an address of a service. "
        + "Give unix:/path/to/service.sock, http://127.0.0.1:7401 or 127.0.0.1:7401, or leave --server out for your own local service.");
}
