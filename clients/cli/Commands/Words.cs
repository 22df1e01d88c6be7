using System.CommandLine;
using System.CommandLine.Parsing;

namespace MixEngine.Cli.Commands;

/// <summary>An argument of several words: what was forgotten to be quoted is put together again.</summary>
internal static class Words
{
    public static Argument<string[]> Of(string name, string description) => WithoutOptions(new Argument<string[]>(name)
    {
        Description = description,
        Arity = ArgumentArity.OneOrMore,
    });

    /// <summary>A mistyped option is not a word of the argument.</summary>
    public static Argument<string[]> WithoutOptions(Argument<string[]> words)
    {
        words.Validators.Add(result =>
        {
            foreach (string word in result.Tokens.Select(token => token.Value).Where(word => word is ['-', '-' or (>= 'A' and <= 'Z') or (>= 'a' and <= 'z'), ..]))
            {
                result.AddError(Misreading.NoSuchOption(word, (CommandResult)result.Parent!));
            }
        });
        return words;
    }

    public static string Text(this ParseResult parsed, Argument<string[]> words) => string.Join(' ', parsed.GetValue(words)!);
}
