using System.Runtime.InteropServices;
using Microsoft.Data.Sqlite;

namespace MixEngine.Storage;

/// <summary>What SQLite knows of the file beneath a connection.</summary>
internal static class SqliteFileState
{
    // SQLITE_FCNTL_HAS_MOVED of sqlite3.h.
    private const int HasMoved = 20;

    /// <summary>Whether the file that was opened is no longer the one that its name leads to: moved, replaced or deleted.</summary>
    public static bool IsMoved(SqliteConnection connection)
    {
        var moved = 0;
        return FileControl(connection.Handle!.DangerousGetHandle(), null, HasMoved, ref moved) == 0 && moved != 0;
    }

    [DllImport("e_sqlite3", EntryPoint = "sqlite3_file_control")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories | DllImportSearchPath.AssemblyDirectory)]
    private static extern int FileControl(nint database, string? name, int operation, ref int value);
}
