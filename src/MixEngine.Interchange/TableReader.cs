namespace MixEngine.Interchange;

/// <summary>
/// Reads tables of paints and of swatches from any format we know, told by content and, where that leaves it open, by the file's name.
/// What is wrong with a file is a value, never an exception; a table is read whole or not at all.
/// </summary>
public static class TableReader
{
    /// <summary>Reads a painter's own paints.</summary>
    /// <param name="stream">Read from where it stands to its end, at most <see cref="ImportLimits.ShelfBytes"/>.</param>
    /// <param name="fileName">The file's name, or only its ending; empty when there is none.</param>
    /// <param name="options">What is known beforehand.</param>
    /// <param name="cancellationToken">Ends the reading early.</param>
    /// <exception cref="OperationCanceledException">The token was cancelled.</exception>
    public static ReadResult<ShelfTable> ReadShelf(Stream stream, string fileName = "", ReadOptions? options = null, CancellationToken cancellationToken = default) =>
        Read(stream, fileName, ImportLimits.ShelfBytes, (file, log) => ReadShelf(file, options ?? ReadOptions.Default, log, cancellationToken), cancellationToken);

    private static ShelfTable? ReadShelf(FileContent file, ReadOptions options, ImportLog log, CancellationToken cancel) =>
        RawTableOf(file, log, cancel) is { } raw ? ShelfTableReader.Read(raw, options, log, cancel) : null;

    private static ReadResult<T> Read<T>(Stream stream, string fileName, int mostBytes, Func<FileContent, ImportLog, T?> read, CancellationToken cancel) where T : class
    {
        var log = new ImportLog();
        FileContent? file = FileContent.Read(stream, fileName, mostBytes, log, cancel);
        T? table = file is null ? null : read(file, log);
        return new ReadResult<T>
        {
            Table = log.Failed ? null : table,
            Format = file?.Format,
            Notes = log.Notes,
            Faults = [.. log.Faults.OrderBy(f => f.Line)],
            FaultsNotListed = log.FaultsNotListed,
        };
    }

    private static RawTable? RawTableOf(FileContent file, ImportLog log, CancellationToken cancel)
    {
        RawTable? raw = file.Text is null ? Workbook.Read(file.Bytes, log, cancel) : CsvTable.Read(file.Text, log);
        if (raw is null && !log.Failed)
        {
            log.FileFault("", "a heading row and rows below it", "The file is empty.");
        }
        return raw;
    }
}
