namespace MixEngine.Service.Hosting;

/// <summary>Files and folders that only their user can open.</summary>
internal static class PrivateFiles
{
    private const UnixFileMode OwnerFolder = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;
    private const UnixFileMode OwnerFile = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    /// <summary>Makes a folder where there is none, and those above it. A folder that is there stays as it is.</summary>
    public static void CreateDirectory(string path)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(path);
        }
        else
        {
            Directory.CreateDirectory(path, OwnerFolder);
        }
    }

    /// <summary>Makes an empty file where there is none. A file that is there stays as it is.</summary>
    public static void CreateFile(string path)
    {
        if (!File.Exists(path))
        {
            var options = new FileStreamOptions { Mode = FileMode.OpenOrCreate, Access = FileAccess.Write };
            if (!OperatingSystem.IsWindows())
            {
                options.UnixCreateMode = OwnerFile;
            }

            using (File.Open(path, options))
            {
            }
        }
    }

    /// <summary>Takes a file away from everybody else.</summary>
    public static void Restrict(string path)
    {
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(path, OwnerFile);
        }
    }
}
