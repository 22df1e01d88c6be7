using System.Runtime.InteropServices;
using System.Runtime.Versioning;

namespace MixEngine.Cli.Connection;

/// <summary>What POSIX offers to start a process in a session of its own and .NET does not (IEEE Std 1003.1, posix_spawn; its SETSID flag is in every libc we run on).</summary>
[UnsupportedOSPlatform("windows")]
internal static unsafe partial class PosixProcess
{
    /// <summary>SIGTERM, which asks a process to end in order.</summary>
    public const int Terminate = 15;

    /// <summary>More than any system's posix_spawnattr_t (glibc: 336 bytes; macOS: a pointer).</summary>
    private const int AttributesSize = 1024;

    private const int WaitNoHang = 1;

    private const int InterruptedCall = 4;

    /// <summary>POSIX_SPAWN_SETSID as glibc and musl have it, and as macOS has it.</summary>
    private static short SetSession => OperatingSystem.IsMacOS() ? (short)0x0400 : (short)0x80;

    /// <summary>Starts a program that no Ctrl-C and no closing terminal of this session reaches.</summary>
    /// <returns>Its process id.</returns>
    public static int SpawnInOwnSession(string[] command, string[] environment)
    {
        byte* attributes = stackalloc byte[AttributesSize];
        Check(InitAttributes(attributes));
        byte** arguments = Strings(command);
        byte** variables = Strings(environment);
        try
        {
            Check(SetFlags(attributes, SetSession));
            Check(Spawn(out int id, command[0], null, attributes, arguments, variables));
            return id;
        }
        finally
        {
            Free(arguments);
            Free(variables);
            DestroyAttributes(attributes);
        }
    }

    /// <summary>The exit code of a child, 128 + n where signal n ended it; null while it runs.</summary>
    public static int? ExitCode(int id)
    {
        int ended = Wait(id, out int status, WaitNoHang);
        if (ended == 0 || (ended < 0 && Marshal.GetLastPInvokeError() == InterruptedCall))
        {
            return null;
        }
        int signal = status & 0x7f;
        return ended < 0 ? -1 : signal == 0 ? (status >> 8) & 0xff : 128 + signal;
    }

    /// <summary>Sends a signal, as kill(2).</summary>
    [LibraryImport("libc", EntryPoint = "kill", SetLastError = true)]
    public static partial int Signal(int id, int signal);

    private static void Check(int error)
    {
        if (error != 0)
        {
            throw new NoService($"The service could not be started: {Marshal.GetPInvokeErrorMessage(error)}.");
        }
    }

    private static byte** Strings(string[] texts)
    {
        var array = (byte**)NativeMemory.AllocZeroed((nuint)(texts.Length + 1), (nuint)sizeof(byte*));
        for (int i = 0; i < texts.Length; i++)
        {
            array[i] = (byte*)Marshal.StringToCoTaskMemUTF8(texts[i]);
        }
        return array;
    }

    private static void Free(byte** array)
    {
        for (byte** text = array; *text is not null; text++)
        {
            Marshal.FreeCoTaskMem((nint)(*text));
        }
        NativeMemory.Free(array);
    }

    [LibraryImport("libc", EntryPoint = "posix_spawnattr_init")]
    private static partial int InitAttributes(byte* attributes);

    [LibraryImport("libc", EntryPoint = "posix_spawnattr_setflags")]
    private static partial int SetFlags(byte* attributes, short flags);

    [LibraryImport("libc", EntryPoint = "posix_spawnattr_destroy")]
    private static partial int DestroyAttributes(byte* attributes);

    [LibraryImport("libc", EntryPoint = "posix_spawn", StringMarshalling = StringMarshalling.Utf8)]
    private static partial int Spawn(out int id, string path, void* fileActions, byte* attributes, byte** arguments, byte** environment);

    [LibraryImport("libc", EntryPoint = "waitpid", SetLastError = true)]
    private static partial int Wait(int id, out int status, int options);
}
