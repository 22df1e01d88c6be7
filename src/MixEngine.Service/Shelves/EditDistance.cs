namespace MixEngine.Service.Shelves;

/// <summary>How many letters must be added, dropped, replaced or swapped with their neighbour to make one word of another.</summary>
/// <remarks>The restricted form of [Damerau1964]: no letter is edited twice.</remarks>
public static class EditDistance
{
    /// <summary>More letters than this are not looked at.</summary>
    private const int MostLetters = 200;

    /// <summary>The distance from a word to the nearest beginning of another: what was not yet typed costs nothing.</summary>
    public static int ToBeginning(string word, string of)
    {
        word = word.Length > MostLetters ? word[..MostLetters] : word;
        of = of.Length > MostLetters ? of[..MostLetters] : of;

        // d[j]: from the letters of the word so far to the first j letters of the other.
        var (beforeLast, last) = (new int[of.Length + 1], Enumerable.Range(0, of.Length + 1).ToArray());
        for (var i = 1; i <= word.Length; i++)
        {
            var d = new int[of.Length + 1];
            d[0] = i;
            for (var j = 1; j <= of.Length; j++)
            {
                d[j] = Math.Min(Math.Min(last[j], d[j - 1]) + 1, last[j - 1] + (word[i - 1] == of[j - 1] ? 0 : 1));
                if (i > 1 && j > 1 && word[i - 1] == of[j - 2] && word[i - 2] == of[j - 1])
                {
                    d[j] = Math.Min(d[j], beforeLast[j - 2] + 1);
                }
            }

            (beforeLast, last) = (last, d);
        }

        return last.Min();
    }
}
