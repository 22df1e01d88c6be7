namespace MixEngine.Service.Tests;

/// <summary>A folder of its own, with a path short enough for sockets, deleted afterwards.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("mx-");

    public string Path => _folder.FullName;

    public string Socket => System.IO.Path.Combine(Path, "run", "s.sock");

    public string Data => System.IO.Path.Combine(Path, "data");

    public void Dispose() => _folder.Delete(recursive: true);
}
