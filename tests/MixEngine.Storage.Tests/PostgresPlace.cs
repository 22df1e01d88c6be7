namespace MixEngine.Storage.Tests;

/// <summary>A database of a test's own; it goes with its server.</summary>
public sealed class PostgresPlace(string connectionString) : DatabasePlace
{
    public string ConnectionString => connectionString;

    public override Database Open() => PostgresDatabase.Open(connectionString);

    public override void Dispose()
    {
    }
}
