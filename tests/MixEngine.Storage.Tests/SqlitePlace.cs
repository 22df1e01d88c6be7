namespace MixEngine.Storage.Tests;

/// <summary>A file in a folder of its own, deleted afterwards.</summary>
public sealed class SqlitePlace : DatabasePlace
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("mixengine-storage-");

    public string Path => System.IO.Path.Combine(_folder.FullName, "mixengine.db");

    public override Database Open() => SqliteDatabase.Open(Path);

    public override void Dispose() => _folder.Delete(recursive: true);
}
