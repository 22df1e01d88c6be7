using System.Globalization;

namespace MixEngine.Cli.Connection;

/// <summary>
/// The right to start a service on a socket: held by one command at a time, and given up when that command ends, however it ends.
/// The file remembers which service was last started in the background.
/// </summary>
internal sealed class StartTurn : IDisposable
{
    private readonly FileStream _file;

    private StartTurn(FileStream file) => _file = file;

    /// <summary>Null: another command holds it.</summary>
    public static StartTurn? TryTake(string socketPath)
    {
        string path = socketPath + ".starting";
        try
        {
            return new StartTurn(new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None));
        }
        catch (IOException) when (File.Exists(path))
        {
            return null;
        }
    }

    /// <summary>Process id of the service that was last started in the background; null: none is known.</summary>
    public int? BackgroundService
    {
        get
        {
            _file.Position = 0;
            using var reader = new StreamReader(_file, leaveOpen: true);
            return int.TryParse(reader.ReadToEnd(), NumberStyles.None, Numerals.Invariant, out int id) ? id : null;
        }
        set
        {
            _file.SetLength(0);
            if (value is { } id)
            {
                _file.Write(System.Text.Encoding.ASCII.GetBytes(id.ToString(Numerals.Invariant)));
                _file.Flush();
            }
        }
    }

    public void Dispose() => _file.Dispose();
}
