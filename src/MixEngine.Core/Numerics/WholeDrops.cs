namespace MixEngine.Core;

/// <summary>Turns shares into whole drops.</summary>
public static class WholeDrops
{
    /// <summary>
    /// Splits a total number of drops as the shares ask: each share's whole drops, and what is left to the largest remainders, ties to the
    /// earlier one. A share above 0 keeps at least one drop, taken from the largest: a strong tinter is never dropped.
    /// </summary>
    /// <param name="shares">0 or more each, adding up to 1.</param>
    /// <param name="total">At least as many drops as there are shares above 0.</param>
    public static int[] Split(IReadOnlyList<double> shares, int total)
    {
        var present = shares.Count(share => share > 0);
        if (total < present || present == 0)
        {
            throw new ArgumentOutOfRangeException(nameof(total), total, $"{present} paints need at least {Math.Max(1, present)} drops.");
        }

        var drops = shares.Select(share => (int)Math.Floor(share * total + 1e-9)).ToArray();
        var byRemainder = Enumerable.Range(0, shares.Count).OrderByDescending(i => Math.Round(shares[i] * total - drops[i], 9)).ThenBy(i => i).ToArray();
        for (var next = 0; drops.Sum() < total; next++)
        {
            drops[byRemainder[next % byRemainder.Length]]++;
        }

        for (var i = 0; i < drops.Length; i++)
        {
            if (shares[i] > 0 && drops[i] == 0)
            {
                drops[i]++;
                drops[Array.IndexOf(drops, drops.Max())]--;
            }
        }

        return drops;
    }
}
