using System.Text;
using MixEngine.Core;

namespace MixEngine.Storage;

/// <summary>Short names of bottles, made from what their owner calls them: "Sea Lettuce" becomes "sea-lettuce".</summary>
public static class PaintId
{
    private const int LongestStem = 40;

    /// <summary>An id that is not taken: the name, and where that is taken a number after it.</summary>
    /// <remarks>
    /// "medium" and "water" mean the same on every shelf: only a bottle of that kind and name gets that id, and then stands for it.
    /// </remarks>
    /// <param name="evidence">The bottle.</param>
    /// <param name="isTaken">Whether another bottle of the shelf has this id.</param>
    public static string For(PaintEvidence evidence, Func<string, bool> isTaken)
    {
        bool IsFree(string id) => !isTaken(id) && !IsReserved(id, evidence.Kind);
        var stem = Stem(evidence.Name);
        if (stem.Length == 0)
        {
            stem = "paint";
        }

        return IsFree(stem) ? stem : Enumerable.Range(2, int.MaxValue - 2).Select(number => $"{stem}-{number}").First(IsFree);
    }

    private static bool IsReserved(string id, PaintKind kind) =>
        (id == Paint.Medium.Id && kind != PaintKind.Medium) || (id == Paint.Water.Id && kind != PaintKind.Water);

    // Letters and digits of any script stay; every run of anything else becomes one hyphen.
    private static string Stem(string text)
    {
        var stem = new StringBuilder();
        foreach (var rune in text.EnumerateRunes())
        {
            if (Rune.IsLetterOrDigit(rune))
            {
                stem.Append(Rune.ToLowerInvariant(rune).ToString());
            }
            else if (stem.Length > 0 && stem[^1] != '-')
            {
                stem.Append('-');
            }

            if (stem.Length >= LongestStem)
            {
                break;
            }
        }

        return stem.ToString().TrimEnd('-');
    }
}
