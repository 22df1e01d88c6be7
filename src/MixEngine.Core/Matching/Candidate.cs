using MathNet.Numerics;

namespace MixEngine.Core;

/// <summary>
/// A recipe under search: up to three places on the shelf, ascending, with their whole drops. An empty place has no drops.
/// </summary>
internal readonly record struct Candidate(int A, int DropsA, int B, int DropsB, int C, int DropsC)
{
    /// <summary>Nothing: with a base on the palette that is a recipe too.</summary>
    public static Candidate None => new(-1, 0, -1, 0, -1, 0);

    public static Candidate Of(int a, int dropsA) => new(a, dropsA, -1, 0, -1, 0);

    public static Candidate Of(int a, int dropsA, int b, int dropsB) => new(a, dropsA, b, dropsB, -1, 0);

    /// <summary>Whether drops are not the same colour as fewer of them: 2:4 is 1:2.</summary>
    public static bool IsReduced(int a, int b, int c) => Euclid.GreatestCommonDivisor(a, b, c) == 1;

    /// <summary>Paints with drops in any order; a place below 0 is empty.</summary>
    public static Candidate Sorted((int Place, int Drops) x, (int Place, int Drops) y, (int Place, int Drops) z)
    {
        Span<(int Place, int Drops)> all = [x, y, z];

        // The empty ones last, the others by place.
        all.Sort(static (p, q) => (p.Place < 0 ? int.MaxValue : p.Place).CompareTo(q.Place < 0 ? int.MaxValue : q.Place));
        return new(all[0].Place, all[0].Drops, all[1].Place, all[1].Drops, all[2].Place, all[2].Drops);
    }

    /// <summary>How many paints.</summary>
    public int Paints => DropsC > 0 ? 3 : DropsB > 0 ? 2 : DropsA > 0 ? 1 : 0;

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
}
