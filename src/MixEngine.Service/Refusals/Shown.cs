namespace MixEngine.Service.Refusals;

/// <summary>A value as a refusal shows it: recognisable, and never longer than a line.</summary>
public static class Shown
{
    private const int Longest = 60;

    /// <summary>The value, its control characters made visible, shortened in the middle of nowhere if need be.</summary>
    public static string Of(string value)
    {
        var line = string.Concat(value.Take(Longest + 1).Select(c => char.IsControl(c) ? '\uFFFD' : c));
        if (line.Length <= Longest)
        {
            return line;
        }

        // Not between the two halves of one character.
        var end = char.IsHighSurrogate(line[Longest - 1]) ? Longest - 1 : Longest;
        return line[..end] + "...";
    }
}
