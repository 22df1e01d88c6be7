namespace MixEngine.Cli.Connection;

/// <summary>Where this user's own service lives: the same rules as the service's own defaults.</summary>
/// <param name="Data">Folder of the shelves and the log, absolute.</param>
/// <param name="Socket">Unix domain socket, absolute.</param>
internal sealed record ServicePlace(string Data, string Socket)
{
    /// <summary>Bytes that fit into sun_path on every system (macOS has 104 for it, the closing zero included); the service allows as many.</summary>
    private const int LongestSocketPath = 100;

    public string Log => Path.Combine(Data, "logs", "service.log");

    public static ServicePlace OfThisUser()
    {
        string? home = Variable("MIXENGINE_HOME");
        string data = Path.GetFullPath(Variable("MIXENGINE_DATA") ?? home ?? DefaultData());

        string socket = Variable("MIXENGINE_SOCKET")
            ?? (home is null && Variable("XDG_RUNTIME_DIR") is { } runtime && Directory.Exists(runtime)
                ? Path.Combine(runtime, "mixengine", "service.sock")
                : Path.Combine(data, "run", "service.sock"));

        return new ServicePlace(data, CheckedSocket(socket));
    }

    /// <exception cref="Refusal">The path is longer than a socket's may be.</exception>
    public static string CheckedSocket(string socket)
    {
        string full = Path.GetFullPath(socket);
        int bytes = System.Text.Encoding.UTF8.GetByteCount(full);
        return bytes <= LongestSocketPath
            ? full
            : throw new Refusal($"The socket's path has {bytes} bytes, and a socket's path may have {LongestSocketPath}: {full}\n"
                + "Name a shorter one in the environment variable MIXENGINE_SOCKET.");
    }

    private static string DefaultData()
    {
        string root = Variable("XDG_DATA_HOME")
            ?? Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify);
        return root.Length > 0
            ? Path.Combine(root, "mixengine")
            : throw new Refusal("This user has no home folder to keep shelves in. Name a folder in the environment variable MIXENGINE_HOME.");
    }

    private static string? Variable(string name) =>
        Environment.GetEnvironmentVariable(name) is { Length: > 0 } value ? value : null;
}
