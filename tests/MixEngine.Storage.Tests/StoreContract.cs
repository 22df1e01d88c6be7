namespace MixEngine.Storage.Tests;

/// <summary>What holds for the stores on every kind of database. Each test has a database of its own.</summary>
public abstract class StoreContract : IDisposable
{
    protected StoreContract(DatabasePlace place)
    {
        Place = place;
        Database = place.Open();
    }

    protected DatabasePlace Place { get; }

    protected Database Database { get; }

    public void Dispose()
    {
        Database.Dispose();
        Place.Dispose();
        GC.SuppressFinalize(this);
    }
}
