using MixEngine.Colorimetry;

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

    /// <summary>Reads measured colours and spectra.</summary>
    /// <param name="stream">Read from where it stands to its end, at most <see cref="ImportLimits.SwatchBytes"/>.</param>
    /// <param name="fileName">The file's name, or only its ending; empty when there is none.</param>
    /// <param name="options">What is known beforehand.</param>
    /// <param name="cancellationToken">Ends the reading early.</param>
    /// <exception cref="OperationCanceledException">The token was cancelled.</exception>
    public static ReadResult<SwatchTable> ReadSwatches(Stream stream, string fileName = "", ReadOptions? options = null, CancellationToken cancellationToken = default) =>
        Read(stream, fileName, ImportLimits.SwatchBytes, (file, log) => ReadSwatches(file, options ?? ReadOptions.Default, log, cancellationToken), cancellationToken);

    private static ShelfTable? ReadShelf(FileContent file, ReadOptions options, ImportLog log, CancellationToken cancel) =>
        file.Format is TableFormat.Cgats or TableFormat.Cxf
            ? ReadSwatches(file, options, log, cancel) is { } swatches ? ShelfOfSwatches.From(swatches, log) : null
            : RawTableOf(file, log, cancel) is { } raw ? ShelfTableReader.Read(raw, options, log, cancel) : null;

    private static SwatchTable? ReadSwatches(FileContent file, ReadOptions options, ImportLog log, CancellationToken cancel)
    {
        bool instrument = file.Format is TableFormat.Cgats or TableFormat.Cxf;
        var colors = new ColorDrafts(options, options.Condition ?? (instrument ? new ViewingCondition(Illuminant.D50, Observer.Degree2) : ViewingCondition.Default), log);
        var drafts = new SwatchDrafts(colors, log);
        switch (file.Format)
        {
            case TableFormat.Cgats:
                CgatsSwatches.Read(file.Text!.Open(), drafts, log, cancel);
                break;
            case TableFormat.Cxf:
                CxfSwatches.Read(file.Bytes, drafts, log, cancel);
                break;
            default:
                if (RawTableOf(file, log, cancel) is { } raw)
                {
                    SwatchTableReader.Read(raw, TableDefaults.None, drafts, log, cancel);
                }
                break;
        }
        return log.Failed ? null : drafts.Finish();
    }

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
