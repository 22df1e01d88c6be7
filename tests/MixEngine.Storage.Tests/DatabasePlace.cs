namespace MixEngine.Storage.Tests;

/// <summary>A place for one database, empty at first.</summary>
public abstract class DatabasePlace : IDisposable
{
    /// <summary>Opens the database there.</summary>
    public abstract Database Open();

    /// <summary>Clears it away; what was opened must be closed before.</summary>
    public abstract void Dispose();
}
