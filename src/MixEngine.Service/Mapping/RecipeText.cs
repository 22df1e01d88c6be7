using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using MixEngine.Service.Refusals;

namespace MixEngine.Service.Mapping;

/// <summary>
/// Reads a recipe as people write it: "2 tarred rope + 1 kelp", "2:1 tarred rope : kelp", or one paint's name.
/// </summary>
/// <remarks>
/// <para>An amount may be left out (1 part) and may have a decimal point, never a comma. Shares in brackets at the end, as in our own answers, are passed over.</para>
/// <para>
/// Names may hold anything. Before '+', ':' and digits are given a meaning, the whole text and then each part of it is held against the names on the shelf,
/// so that "30 fathoms" is a paint where there is one of that name. A name with '+' or ':' in it that does not stand alone is put in double quotes.
/// </para>
/// </remarks>
public static partial class RecipeText
{
    /// <summary>Most characters of a recipe.</summary>
    public const int Longest = 2000;

    /// <summary>Reads a recipe; null, with violations noted, where it is none.</summary>
    /// <param name="text">The recipe.</param>
    /// <param name="isName">Whether a text is exactly the name of a paint.</param>
    /// <param name="field">The field in which it stands.</param>
    /// <param name="violations">Where to note what is wrong.</param>
    /// <returns>Names and amounts, in their order. Amounts are not checked for being above zero.</returns>
    public static IReadOnlyList<(string Name, double Parts)>? Read(string text, Func<string, bool> isName, string field, Violations violations)
    {
        if (text.Length > Longest)
        {
            violations.Add(field, $"The recipe has {text.Length} characters; at most {Longest} are read.");
            return null;
        }

        if (isName(text))
        {
            return [(text, 1)];
        }

        // Most recipes are plain sums, and need not be searched for the rest.
        text = text.Contains(')') ? SharesAtEnd().Replace(text, "") : text;
        return text.Contains(':') && RatioFirst().Match(text) is { Success: true } ratio
            ? Ratio(ratio.Groups["amounts"].Value, text[ratio.Length..], field, violations)
            : Sum(text, isName, field, violations);
    }

    private static IReadOnlyList<(string, double)>? Sum(string text, Func<string, bool> isName, string field, Violations violations)
    {
        var parts = new List<(string, double)>();
        foreach (var term in Split(text, '+'))
        {
            if (term.Length == 0)
            {
                violations.Add(field, $"'{Shown.Of(text)}': nothing stands before or after a '+'. Write a recipe like 2 tarred rope + 1 kelp; put a name with '+' in it in double quotes.");
                return null;
            }

            // Whatever looks like a number is taken for one, so that its fault can be told.
            var afterAmount = term.AsSpan().IndexOfAnyExcept("-0123456789.,");
            if (afterAmount <= 0 || !char.IsWhiteSpace(term[afterAmount]) || isName(term))
            {
                parts.Add((Unquoted(term), 1));
            }
            else if (Amount(term.AsSpan(0, afterAmount), field, violations) is { } number)
            {
                parts.Add((Unquoted(term[afterAmount..].Trim()), number));
            }
            else
            {
                return null;
            }
        }

        return parts;
    }

    private static IReadOnlyList<(string, double)>? Ratio(string amounts, string rest, string field, Violations violations)
    {
        var numbers = amounts.Split(':').Select(amount => Amount(amount.Trim(), field, violations)).ToArray();
        var names = Split(rest, ':').ToArray();
        if (numbers.Length != names.Length)
        {
            violations.Add(field, $"'{Shown.Of(amounts.Trim())}' has {numbers.Length} amounts, and '{Shown.Of(rest.Trim())}' {names.Length} paint{(names.Length == 1 ? "" : "s")}. Write a recipe like 2:1 tarred rope : kelp.");
            return null;
        }

        return numbers.All(number => number is not null) ? [.. names.Zip(numbers, (name, number) => (Unquoted(name), number!.Value))] : null;
    }

    private static double? Amount(ReadOnlySpan<char> text, string field, Violations violations)
    {
        // Most amounts are small whole numbers.
        if (text is [>= '0' and <= '9' and var digit])
        {
            return digit - '0';
        }

        if (Number().IsMatch(text))
        {
            return double.Parse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);
        }

        var shown = Shown.Of(text.ToString());
        violations.Add(field, text.Contains(',')
            ? $"'{shown}' is no amount; write decimals with a point: {shown.Replace(',', '.')}."
            : $"'{shown}' is no amount; write a number above 0, such as 2 or 0.5.");
        return null;
    }

    private static IEnumerable<string> Split(string text, char separator) =>
        text.Contains('"') ? SplitOutsideQuotes(text, separator) : text.Split(separator, StringSplitOptions.TrimEntries);

    // What stands in double quotes stays together.
    private static IEnumerable<string> SplitOutsideQuotes(string text, char separator)
    {
        var (part, quoted) = (new StringBuilder(), false);
        foreach (var c in text)
        {
            if (c == separator && !quoted)
            {
                yield return part.ToString().Trim();
                part.Clear();
                continue;
            }

            quoted ^= c == '"';
            part.Append(c);
        }

        yield return part.ToString().Trim();
    }

    private static string Unquoted(string name) => name is ['"', .. var inside, '"'] ? inside.Trim() : name;

    [GeneratedRegex(@"\s*\(\s*[0-9]+(\.[0-9]+)? ?%(\s*\+\s*[0-9]+(\.[0-9]+)? ?%)*\s*\)\s*$", RegexOptions.NonBacktracking)]
    private static partial Regex SharesAtEnd();

    // "2:1 ": amounts, and no name yet.
    [GeneratedRegex(@"^\s*(?<amounts>[-0-9.,]+(\s*:\s*[-0-9.,]+)+)\s+")]
    private static partial Regex RatioFirst();

    [GeneratedRegex(@"^([0-9]{1,9}(\.[0-9]{0,9})?|\.[0-9]{1,9})$")]
    private static partial Regex Number();
}
