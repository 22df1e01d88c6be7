using System.Data.Common;

namespace MixEngine.Storage;

/// <summary>Where everything is kept that users have entered: a file of SQLite at home, PostgreSQL where several share it. Safe to use from several threads.</summary>
public abstract class Database : IDisposable
{
    /// <summary>How long a request waits for other writers, or for a server that is away, before it fails.</summary>
    internal static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    private protected Database(string place) => Place = place;

    /// <summary>Which database it is: the file, or the server and the name there. Without secrets.</summary>
    public string Place { get; }

    /// <summary>Asks the database for nothing but an answer.</summary>
    /// <exception cref="DbException">It gives none.</exception>
    public void Ask()
    {
        using var connection = Connect();
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT max(version) FROM schema_version";
        command.ExecuteScalar();
    }

    /// <summary>
    /// A number that is another whenever anybody, in this process or another, has changed anything since it was asked before, so that what was read then need not be read again;
    /// null where nobody answers, or to ask would cost as much as to read.
    /// </summary>
    /// <exception cref="DbException">The database gives no answer.</exception>
    internal virtual long? ChangeCount() => null;

    /// <summary>What a fault of this database means to whoever asked; null: the fault is ours.</summary>
    public abstract DatabaseTrouble? TroubleOf(DbException fault);

    /// <summary>Lets go of it.</summary>
    public abstract void Dispose();

    /// <summary>An open connection; dispose it soon.</summary>
    internal abstract DbConnection Connect();

    /// <summary>A transaction that sees the database as it is now, throughout.</summary>
    internal abstract DbTransaction BeginReading(DbConnection connection);

    /// <summary>A transaction that may write.</summary>
    internal abstract DbTransaction BeginWriting(DbConnection connection);

    /// <summary>A statement that waits until no other transaction holds @claim, and then holds it to its end. Null: whoever writes is alone anyway.</summary>
    internal abstract string? ClaimStatement { get; }

    /// <summary>Whether the connection failed, not the statement: then the same may be tried on another.</summary>
    internal abstract bool IsBrokenConnection(DbException fault);

    /// <summary>Text as it is kept.</summary>
    internal virtual string ToStored(string text) => text;

    /// <summary>The text that was kept.</summary>
    internal virtual string FromStored(string text) => text;
}
