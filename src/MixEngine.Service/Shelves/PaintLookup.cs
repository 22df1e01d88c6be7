using MixEngine.Core;
using MixEngine.Service.Refusals;

namespace MixEngine.Service.Shelves;

/// <summary>Finds the paint that somebody means: by its id, its name, or any beginning that only one paint has, in any case.</summary>
public static class PaintLookup
{
    private const int MostSuggestions = 5;

    /// <summary>The paint; null, with a violation noted, where none or several are meant.</summary>
    /// <param name="shelf">Where it is sought. Medium and water are found on every shelf.</param>
    /// <param name="text">What was written.</param>
    /// <param name="field">The field in which it was written.</param>
    /// <param name="violations">Where to note that it was not found.</param>
    public static Paint? Find(Shelf shelf, string text, string field, Violations violations)
    {
        var wanted = Fold(text);
        if (wanted.Length == 0)
        {
            violations.Add(field, "No paint is named; give its name, its id, or a beginning of either.");
            return null;
        }

        if (shelf.Named(wanted) is { } exact)
        {
            return exact;
        }

        var beginning = shelf.AtHand.Where(paint => Fold(paint.Name).StartsWith(wanted, StringComparison.Ordinal) || paint.Id.StartsWith(wanted, StringComparison.Ordinal)).ToArray();
        if (beginning is [var only])
        {
            return only;
        }

        violations.Add(field, beginning.Length > 1 ? Ambiguous(text, beginning) : Unknown(shelf, text));
        return null;
    }

    /// <summary>The paint of this very id or name; null where there is none.</summary>
    public static Paint? Exactly(Shelf shelf, string text) => shelf.Named(Fold(text));

    /// <summary>Whether a text is the paint's own name, in any case and with any blanks.</summary>
    public static bool IsName(Paint paint, string text) => IsSameName(paint.Name, text);

    /// <summary>Whether two names are of one paint: alike in any case and with any blanks.</summary>
    public static bool IsSameName(string name, string other) => Fold(name) == Fold(other);

    private static string Ambiguous(string text, Paint[] beginning) =>
        $"'{Shown.Of(text)}' may mean {Listed(beginning.Select(paint => paint.Name))}; write more of the name.";

    private static string Unknown(Shelf shelf, string text)
    {
        // The nearest in spelling, as long as they have more in common with it than not; a beginning counts as the whole.
        var wanted = Fold(text);
        var near = shelf.AtHand
            .Select(paint => (paint.Name, Distance: EditDistance.ToBeginning(wanted, Fold(paint.Name))))
            .Where(candidate => candidate.Distance <= Math.Max(1, wanted.Length / 2))
            .OrderBy(candidate => candidate.Distance)
            .ThenBy(candidate => candidate.Name, StringComparer.Ordinal)
            .Select(candidate => candidate.Name)
            .Take(MostSuggestions)
            .ToArray();
        var unknown = $"There is no paint '{Shown.Of(text)}' on the shelf '{shelf.Name}'.";
        return near.Length == 0 ? unknown + " List the shelf to see its names." : $"{unknown} The nearest: {Listed(near)}.";
    }

    private static string Listed(IEnumerable<string> names)
    {
        var all = names.Select(name => $"'{Shown.Of(name)}'").ToArray();
        return string.Join(", ", all.Take(MostSuggestions)) + (all.Length > MostSuggestions ? $" and {all.Length - MostSuggestions} more" : "");
    }

    /// <summary>A name without what does not count in it: case, and how many blanks there are.</summary>
    internal static string Fold(string text) =>
        IsFolded(text) ? text : string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).ToLowerInvariant();

    // Most names are written so: small letters of English, digits and signs, with single blanks between them.
    private static bool IsFolded(string text)
    {
        var before = ' ';
        foreach (var c in text)
        {
            if (c is < ' ' or > '~' or (>= 'A' and <= 'Z') || (c == ' ' && before == ' '))
            {
                return false;
            }

            before = c;
        }

        return text.Length > 0 && before != ' ';
    }
}
