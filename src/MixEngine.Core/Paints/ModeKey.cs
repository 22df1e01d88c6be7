namespace MixEngine.Core;

/// <summary>Keys of uncertainty modes: the same words give the same key on every machine.</summary>
public static class ModeKey
{
    /// <summary>The key of one named way in which one paint may be wrong (FNV-1a, 64 bits).</summary>
    public static long Of(string paintId, string name)
    {
        var hash = 14695981039346656037UL;
        foreach (var c in string.Concat(paintId, "\n", name))
        {
            hash = (hash ^ c) * 1099511628211UL;
        }

        return unchecked((long)hash);
    }
}
