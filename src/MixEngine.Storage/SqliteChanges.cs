using System.Runtime.InteropServices;
using Microsoft.Data.Sqlite;

namespace MixEngine.Storage;

/// <summary>Tells in nanoseconds whether anybody has changed anything in a SQLite file, as SQLite itself does: by the head of the write-ahead log's index.</summary>
/// <remarks>
/// The index lies in memory that all processes share which have the file open. Every commit, and nothing else but the upkeep of the log, changes its head, and is not
/// acknowledged before. SQLite keeps it twice, one after the other, and a writer writes the second first: where both are alike, both are whole
/// (https://sqlite.org/walformat.html, "The WAL-Index Header"). Every prediction asks; a query that asks the same takes longer than the physics of the prediction.
/// </remarks>
internal sealed class SqliteChanges
{
    // Of sqlite3_io_methods: a version, and the pointer to xShmMap after twelve others.
    private const int ShmMapVersion = 2, ShmMapPlace = 13;

    // Bytes of one head, of the part of the index that is mapped at a time, and the places in a head of: the counter of changes, whether it is set up, and its checksum.
    private const int HeadBytes = 48, MappedBytes = 32 << 10, Change = 8, IsSetUp = 12, Checksum = 40;

    private readonly SafeHandle _database;
    private readonly nint _index;

    private SqliteChanges(SafeHandle database, nint index) => (_database, _index) = (database, index);

    [UnmanagedFunctionPointer(CallingConvention.Cdecl)]
    private delegate int ShmMap(nint file, int part, int bytes, int extend, out nint mapped);

    /// <summary>Watches a file for as long as a connection to it stays open; null: this SQLite does not show its index.</summary>
    public static SqliteChanges? Of(SqliteConnection connection)
    {
        var file = SqliteFileState.FileOf(connection);
        var methods = file == 0 ? 0 : Marshal.ReadIntPtr(file);
        if (methods == 0 || Marshal.ReadInt32(methods) < ShmMapVersion || Marshal.ReadIntPtr(methods, ShmMapPlace * nint.Size) is not (not 0 and var map))
        {
            return null;
        }

        return Marshal.GetDelegateForFunctionPointer<ShmMap>(map)(file, 0, MappedBytes, 0, out var index) == 0 && index != 0 ? new SqliteChanges(connection.Handle!, index) : null;
    }

    /// <summary>Another number whenever anything was changed; null: nobody can tell just now, or the connection is closed.</summary>
    public long? Count()
    {
        // Held meanwhile: closing the connection takes the memory away.
        var isHeld = false;
        try
        {
            _database.DangerousAddRef(ref isHeld);
            return Read();
        }
        catch (ObjectDisposedException)
        {
            return null;
        }
        finally
        {
            if (isHeld)
            {
                _database.DangerousRelease();
            }
        }
    }

    private long? Read()
    {
        var (change, checksum) = (Marshal.ReadInt32(_index, Change), Marshal.ReadInt64(_index, Checksum));
        var isSetUp = Marshal.ReadByte(_index, IsSetUp) != 0;
        Interlocked.MemoryBarrier();
        var isWhole = change == Marshal.ReadInt32(_index, HeadBytes + Change) && checksum == Marshal.ReadInt64(_index, HeadBytes + Checksum);

        // The checksum is over all of the head, the counter included, and tells apart what a repaired log counts anew.
        return isSetUp && isWhole ? ((long)change << 32) ^ checksum : null;
    }
}
