using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;

namespace MixEngine.Cli.Commands;

/// <summary>
/// Options that are numbers. What is no number at all, or a zero where the contract would take it for "not said", is refused here;
/// which numbers make sense is for the service to say.
/// </summary>
internal static class OptionOf
{
    public static Option<int?> Whole(string name, string helpName, string description, int least, string example) => new(name)
    {
        Description = description,
        HelpName = helpName,
        CustomParser = result => Read<int>(result, name, $"a whole number, {least} or more, such as {example}",
            text => int.TryParse(text, NumberStyles.AllowLeadingSign, Numerals.Invariant, out int value) && value >= least ? value : null),
    };

    public static Option<double?> Number(string name, string helpName, string description, double least, string example) => new(name)
    {
        Description = description,
        HelpName = helpName,
        CustomParser = result => Read<double>(result, name, $"a number, {least.ToString(Numerals.Invariant)} or more, with a point before its decimals, such as {example}",
            text => double.TryParse(text, NumberStyles.Float, Numerals.Invariant, out double value) && double.IsFinite(value) && value >= least ? value : null),
    };

    private static T? Read<T>(ArgumentResult result, string name, string expected, Func<string, T?> read) where T : struct
    {
        string text = result.Tokens[^1].Value;
        T? value = read(text);
        if (value is null)
        {
            result.AddError($"{name}: \"{text}\" cannot be used. Give {expected}.");
        }
        return value;
    }
}
