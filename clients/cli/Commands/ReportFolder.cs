using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>A folder into which the pieces of files are written as they come. A file stands there whole or not at all.</summary>
internal sealed class ReportFolder : IDisposable
{
    private const string Unfinished = ".part";
    private readonly string _folder;
    private FileStream? _open;

    public ReportFolder(string folder)
    {
        _folder = Path.GetFullPath(folder);
        Guarded(() => Directory.CreateDirectory(_folder));
    }

    public void Write(FilePiece piece)
    {
        // A name that would leave the folder is none of ours.
        string path = Path.GetFullPath(Path.Combine(_folder, piece.Name));
        if (!path.StartsWith(_folder + Path.DirectorySeparatorChar, StringComparison.Ordinal))
        {
            throw new Refusal($"The service sent a file named {piece.Name}, which would lie outside of {_folder}; nothing was written there.");
        }
        Guarded(() =>
        {
            if (_open is null)
            {
                Directory.CreateDirectory(Path.GetDirectoryName(path)!);
                _open = File.Create(path + Unfinished);
            }
            piece.Content.WriteTo(_open);
            if (piece.Last)
            {
                _open.Dispose();
                _open = null;
                File.Move(path + Unfinished, path, overwrite: true);
            }
        });
    }

    public void Dispose() => _open?.Dispose();

    private void Guarded(Action write)
    {
        try
        {
            write();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new Refusal($"{_folder} cannot be written to: {e.Message} Name another folder with --out.");
        }
    }
}
