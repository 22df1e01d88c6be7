using System.CommandLine;
using System.CommandLine.Parsing;
using MixEngine.Cli.Commands;

namespace MixEngine.Cli;

/// <summary>A line that is no question: what in it was not understood, what was probably meant, and where to read on.</summary>
internal static class Misreading
{
    public static IEnumerable<string> Lines(ParseResult parsed)
    {
        CommandResult command = parsed.CommandResult;
        IEnumerable<string> faults = command.Command.Subcommands.Count > 0 && command.Errors.Any()
            ? [WhichCommand(parsed)]
            : parsed.Errors.Select(error => error.Message);
        return
        [
            .. faults.Distinct(),
            .. UnquotedHash(command),
            $"How it is asked: {string.Join(' ', Path(command))} --help",
        ];
    }

    /// <summary>What is said of a word that looks like an option and is none.</summary>
    public static string NoSuchOption(string word, CommandResult command)
    {
        IEnumerable<string> options = command.Command.Options.Concat(CommonOptions.All).Select(option => option.Name);
        return $"{word} is not an option of {command.Command.Name}.{Nearest(word, options)}";
    }

    private static string WhichCommand(ParseResult parsed)
    {
        string[] known = [.. parsed.CommandResult.Command.Subcommands.Select(command => command.Name)];
        string? word = parsed.UnmatchedTokens.FirstOrDefault();
        return word is null ? $"Ask one of: {string.Join(", ", known)}."
            : word.StartsWith('-') ? NoSuchOption(word, parsed.CommandResult)
            : $"\"{word}\" is not a command.{Nearest(word, known)} There are: {string.Join(", ", known)}.";
    }

    /// <summary>The usual reason for a colour that is not there.</summary>
    private static string[] UnquotedHash(CommandResult command)
    {
        bool wantsColour = command.Command.Name is "match" or "glaze" or "add" or "correct";
        bool lacksWord = command.Children.OfType<ArgumentResult>().Any(argument => argument.Tokens.Count == 0 && argument.Errors.Any())
            || command.Children.OfType<OptionResult>().Any(option => option.Option.Name == "--over" && option.Tokens.Count == 0)
            || command.Errors.Any(error => error.Message.StartsWith("Required argument 'colour'", StringComparison.Ordinal));
        return wantsColour && lacksWord
            ? ["In a shell a bare # begins a comment: write the colour in quotes (\"#5a6b3c\"), or without its # (5a6b3c)."]
            : [];
    }

    private static IEnumerable<string> Path(SymbolResult? result) => result is CommandResult command
        ? Path(command.Parent).Append(command.Command is RootCommand ? "mixengine" : command.Command.Name)
        : [];

    private static string Nearest(string word, IEnumerable<string> known)
    {
        string? nearest = known.Select(name => (name, distance: EditDistance(word, name)))
            .Where(near => near.distance <= 1 + (word.Length / 4))
            .OrderBy(near => near.distance)
            .Select(near => near.name)
            .FirstOrDefault();
        return nearest is null ? "" : $" Did you mean {nearest}?";
    }

    /// <summary>Letters to change, add or drop (Levenshtein).</summary>
    private static int EditDistance(string a, string b)
    {
        int[] row = [.. Enumerable.Range(0, b.Length + 1)];
        for (int i = 1; i <= a.Length; i++)
        {
            (int diagonal, row[0]) = (row[0], i);
            for (int j = 1; j <= b.Length; j++)
            {
                int change = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
                (diagonal, row[j]) = (row[j], Math.Min(change, 1 + Math.Min(row[j], row[j - 1])));
            }
        }
        return row[^1];
    }
}
