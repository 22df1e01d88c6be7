namespace MixEngine.Cli.Connection;

/// <summary>A folder that only its user may enter.</summary>
internal static class OwnFolder
{
    public static void Create(string path)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(path);
        }
        else
        {
            Directory.CreateDirectory(path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }
    }
}
