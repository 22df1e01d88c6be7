namespace MixEngine.Interchange;

/// <summary>The swatches of one file, gathered from its rows or objects and then checked together.</summary>
internal sealed class SwatchDrafts(ColorDrafts colors, ImportLog log)
{
    /// <summary>Stands for a colour until the scale of the whole file is known.</summary>
    public static readonly ColorReading Pending = new HexReading(default);

    private readonly List<(SwatchRow Row, ColorDraft Color)> _drafts = [];

    public ColorDrafts Colors => colors;

    public void Add(SwatchRow row, ColorDraft color) => _drafts.Add((row, color));

    /// <summary>Decides the scale and checks what concerns the whole file; null where anything is at fault.</summary>
    public SwatchTable? Finish()
    {
        CheckIds();
        colors.Decide();
        var rows = new List<SwatchRow>(_drafts.Count);
        foreach ((SwatchRow row, ColorDraft draft) in _drafts)
        {
            if (colors.Finish(draft) is { } color)
            {
                rows.Add(row with { Color = color });
            }
        }
        colors.NoteGrids();
        if (_drafts.Count == 0)
        {
            log.Note("The table has no rows.");
        }
        return log.Failed ? null : new SwatchTable(rows);
    }

    private void CheckIds()
    {
        var lines = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach ((SwatchRow row, _) in _drafts)
        {
            if (!lines.TryAdd(row.SampleId, row.Line))
            {
                log.Fault(row.Line, SwatchColumns.SampleId.Name, row.SampleId, "every id once", $"Line {lines[row.SampleId]} has the same id: remove one, or rename it.");
            }
        }
        foreach ((SwatchRow row, _) in _drafts)
        {
            if (row.Backing?.SampleId is { } id && (!lines.ContainsKey(id) || id == row.SampleId))
            {
                log.Fault(row.Line, SwatchColumns.Backing.Name, row.Backing.ToString(), "the id of another swatch of this file", "Add the swatch of the backing, or name it as none, black, white, a hex or a Lab.");
            }
        }
    }
}
