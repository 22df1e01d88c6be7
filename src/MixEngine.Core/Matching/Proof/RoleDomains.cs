namespace MixEngine.Core;

/// <summary>
/// Which slots may play each role of a recipe: the paint of most drops, of fewer, of fewest. Paints that must be in are each given a role,
/// in every way there is; the other roles take any other paint.
/// </summary>
internal sealed class RoleDomains
{
    private readonly uint[][] _lanes;

    private RoleDomains(uint[][] lanes) => _lanes = lanes;

    /// <summary>How many roles.</summary>
    public int Roles => _lanes.Length;

    /// <summary>The slots of a block that may play a role, one bit each.</summary>
    public uint Of(int role, int block) => _lanes[role][block];

    /// <summary>All ways to give the paints that must be in a role.</summary>
    /// <param name="blocks">The paints.</param>
    /// <param name="roles">How many paints the recipe has.</param>
    /// <param name="must">Places that must be in.</param>
    /// <param name="barred">Places that must not.</param>
    public static IEnumerable<RoleDomains> All(PaintBlocks blocks, int roles, IReadOnlyCollection<int> must, IReadOnlySet<int> barred)
    {
        if (must.Count > roles || must.Any(barred.Contains))
        {
            yield break;
        }

        uint[] Lanes(Func<int, bool> allowed) => [.. Enumerable.Range(0, blocks.Blocks).Select(block =>
            Enumerable.Range(0, PaintBlocks.Lanes).Aggregate(0u, (bits, lane) =>
            {
                var place = blocks.PlaceOf(block * PaintBlocks.Lanes + lane);
                return place >= 0 && allowed(place) ? bits | (1u << lane) : bits;
            }))];

        var others = Lanes(place => !must.Contains(place) && !barred.Contains(place));
        foreach (var assignment in Assignments(roles, [.. must]))
        {
            yield return new([.. assignment.Select(place => place < 0 ? others : Lanes(other => other == place))]);
        }
    }

    // Each way to seat the places that must be in; -1 for a free seat.
    private static IEnumerable<int[]> Assignments(int roles, int[] must)
    {
        var seats = (int)Math.Pow(must.Length + 1, roles);
        for (var code = 0; code < seats; code++)
        {
            var seated = new int[roles];
            for (int role = 0, rest = code; role < roles; role++, rest /= must.Length + 1)
            {
                seated[role] = rest % (must.Length + 1) - 1;
            }

            if (Enumerable.Range(0, must.Length).All(i => seated.Count(seat => seat == i) == 1))
            {
                yield return [.. seated.Select(seat => seat < 0 ? -1 : must[seat])];
            }
        }
    }
}
