namespace MixEngine.Storage.Tests;

/// <summary>A database in a folder of its own, deleted afterwards.</summary>
internal sealed class TemporaryDatabase : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("mixengine-storage-");

    public string Path => System.IO.Path.Combine(_folder.FullName, "mixengine.db");

    public Database Open() => Database.Open(Path);

    public void Dispose() => _folder.Delete(recursive: true);
}
