using System.Text;
using MixEngine.Service.Refusals;

namespace MixEngine.Service.Shelves;

/// <summary>Names of shelves.</summary>
public static class ShelfName
{
    /// <summary>Most characters of a name.</summary>
    public const int Longest = 64;

    /// <summary>The shelf that is meant when none is named.</summary>
    public const string Default = "home";

    /// <summary>The name, or that of the shelf meant when none is named.</summary>
    public static string OrDefault(string name) => name.Length == 0 ? Default : name;

    /// <summary>Names of the same shelf fold to the same.</summary>
    public static string Fold(string name) => name.ToLowerInvariant();

    /// <summary>Checks a name under which a shelf is to be made.</summary>
    public static string Check(string name, Violations violations)
    {
        var checkedName = OrDefault(name);
        if (checkedName.EnumerateRunes().Count() > Longest || checkedName.EnumerateRunes().Any(rune => !Rune.IsLetterOrDigit(rune) && rune.Value is not ('-' or '_')))
        {
            violations.Add("shelf", $"'{Shown.Of(name)}' is no name for a shelf; use 1 to {Longest} letters, digits, '-' or '_'.");
        }

        return checkedName;
    }
}
