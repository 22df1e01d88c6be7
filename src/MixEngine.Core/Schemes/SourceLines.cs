namespace MixEngine.Core;

/// <summary>The lines of a file on which the keys of one table stand, so that a fault found later can still name its place.</summary>
/// <param name="Table">Line of the table's heading; 0 where there is no file.</param>
/// <param name="Keys">Line of each key.</param>
public sealed record SourceLines(int Table, IReadOnlyDictionary<string, int> Keys)
{
    /// <summary>Not from a file.</summary>
    public static SourceLines None { get; } = new(0, new Dictionary<string, int>());

    /// <summary>The line of a key; that of its table where the key does not stand there.</summary>
    public int Of(string key) => Keys.TryGetValue(key, out var line) ? line : Table;
}
