using System.Runtime.InteropServices;
using Microsoft.Data.Sqlite;

namespace MixEngine.Storage;

/// <summary>What SQLite knows of the file beneath a connection.</summary>
internal static class SqliteFileState
{
    // SQLITE_FCNTL_FILE_POINTER and SQLITE_FCNTL_HAS_MOVED of sqlite3.h.
    private const int FilePointer = 7, HasMoved = 20;

    /// <summary>Whether the file that was opened is no longer the one that its name leads to: moved, replaced or deleted.</summary>
    public static bool IsMoved(SqliteConnection connection)
    {
        nint moved = 0;
        return FileControl(connection.Handle!.DangerousGetHandle(), null, HasMoved, ref moved) == 0 && (int)moved != 0;
    }

    /// <summary>SQLite's own object for the file (sqlite3_file), as long as the connection is open; 0: none.</summary>
    public static nint FileOf(SqliteConnection connection)
    {
        nint file = 0;
        return FileControl(connection.Handle!.DangerousGetHandle(), null, FilePointer, ref file) == 0 ? file : 0;
    }

    [DllImport("e_sqlite3", EntryPoint = "sqlite3_file_control")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories | DllImportSearchPath.AssemblyDirectory)]
    private static extern int FileControl(nint database, string? name, int operation, ref nint value);
}
