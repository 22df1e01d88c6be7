namespace MixEngine.Storage;

/// <summary>Names as they are compared: in any case, with one blank where any stand.</summary>
internal static class Fold
{
    /// <summary>The folded form.</summary>
    public static string Of(string text) =>
        string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).ToLowerInvariant();
}
