using System.Text.RegularExpressions;

namespace MixEngine.Interchange;

/// <summary>Colour Index generic names of pigments, such as PW6, PBk7 or PB15:3.</summary>
internal static partial class PigmentNames
{
    private static readonly (string Word, string Letters)[] Hues =
        [("white", "W"), ("black", "Bk"), ("yellow", "Y"), ("orange", "O"), ("red", "R"), ("violet", "V"), ("blue", "B"), ("green", "G"), ("brown", "Br"), ("metal", "M")];

    /// <summary>Reads a list separated by blanks, commas, semicolons, slashes, bars or plus signs; null when a part of it is no such name.</summary>
    public static IReadOnlyList<string>? Read(string text)
    {
        var names = new List<string>();
        string rest = PigmentName().Replace(text, match =>
        {
            string hue = match.Groups["hue"].Value;
            string letters = Hues.First(h => h.Word.Equals(hue, StringComparison.OrdinalIgnoreCase) || h.Letters.Equals(hue, StringComparison.OrdinalIgnoreCase)).Letters;
            string origin = match.Groups["origin"].Value.StartsWith('n') || match.Groups["origin"].Value.StartsWith('N') ? "N" : "P";
            names.Add(origin + letters + match.Groups["number"].Value);
            return " ";
        });
        return rest.All(c => char.IsWhiteSpace(c) || c is ',' or ';' or '/' or '|' or '+') ? names : null;
    }

    /// <summary>"PW6", "pbk 7", "C.I. Pigment Blue 15:3", "NR4".</summary>
    [GeneratedRegex(@"(?<![\p{L}\d])(C\.?\s?I\.?\s*)?(?<origin>Pigment\s+|Natural\s+|P|N)(?<hue>white|black|yellow|orange|red|violet|blue|green|brown|metal|Bk|Br|W|Y|O|R|V|B|G|M)\s*(?<number>[1-9]\d{0,2}(:\d{1,2})?)(?![\p{L}\d:])", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex PigmentName();
}
