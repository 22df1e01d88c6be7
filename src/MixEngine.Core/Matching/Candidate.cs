namespace MixEngine.Core;

/// <summary>
/// A recipe under search: up to three places on the shelf, ascending, with their whole drops. An empty place has no drops.
/// </summary>
internal readonly record struct Candidate(int A, int DropsA, int B, int DropsB, int C, int DropsC)
{
    public static Candidate Of(int a, int dropsA) => new(a, dropsA, -1, 0, -1, 0);

    public static Candidate Of(int a, int dropsA, int b, int dropsB) => new(a, dropsA, b, dropsB, -1, 0);

    /// <summary>How many paints.</summary>
    public int Paints => DropsC > 0 ? 3 : DropsB > 0 ? 2 : 1;

    /// <summary>Sum of the drops.</summary>
    public int Drops => DropsA + DropsB + DropsC;

    /// <summary>Place on the shelf and drops of the first, second or third paint.</summary>
    public (int Place, int Drops) this[int i] => i switch
    {
        0 => (A, DropsA),
        1 => (B, DropsB),
        _ => (C, DropsC),
    };

    /// <summary>The same with one drop more of one of its paints.</summary>
    public Candidate WithOneMore(int i) => i switch
    {
        0 => this with { DropsA = DropsA + 1 },
        1 => this with { DropsB = DropsB + 1 },
        _ => this with { DropsC = DropsC + 1 },
    };

    /// <summary>Whether it is not the same colour as a smaller candidate: 2:4 is 1:2.</summary>
    public static bool IsReduced(int a, int b, int c) => GreatestCommonDivisor(GreatestCommonDivisor(a, b), c) == 1;

    private static int GreatestCommonDivisor(int x, int y)
    {
        while (y != 0)
        {
            (x, y) = (y, x % y);
        }

        return x;
    }
}
