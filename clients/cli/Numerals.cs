using System.Globalization;

namespace MixEngine.Cli;

/// <summary>Numbers as everybody writes them, whatever the language of the machine: a point before the decimals, nothing between thousands.</summary>
internal static class Numerals
{
    public static CultureInfo Invariant => CultureInfo.InvariantCulture;

    /// <summary>With one decimal, and never "-0.0".</summary>
    public static string One(double value) => Clean(value.ToString("0.0", Invariant));

    /// <summary>With one decimal and its sign: "+4.1", "-2.0", "0.0".</summary>
    public static string Signed(double value) => value.ToString("+0.0;-0.0;0.0", Invariant) is var text && text is "+0.0" or "-0.0" ? " 0.0" : text;

    /// <summary>With at most so many decimals, as tables want it.</summary>
    public static string UpTo(int decimals, double value) =>
        Clean(Math.Round(value, decimals).ToString("0." + new string('#', decimals), Invariant));

    /// <summary>A difference as people read it: two decimals while it is small.</summary>
    public static string Difference(double value) => value < 1 ? Clean(value.ToString("0.00", Invariant)) : One(value);

    private static string Clean(string text) => text.AsSpan().IndexOfAnyExcept("-0.") < 0 ? text.TrimStart('-') : text;
}
