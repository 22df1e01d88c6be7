namespace MixEngine.Cli.Terminal;

/// <summary>A word of a command as it is typed: in quotes where the shell would take it apart.</summary>
internal static class ShellWord
{
    public static string Of(string word) =>
        word.Length > 0 && word.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or ':' or ',' or '.' or '/' or '_') ? word : $"\"{word}\"";
}
