using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// Which recipes are of one kind: where every paint of the one is in the other or has a look-alike there. Four answers that differ in one
/// drop, or in one of two near twins, would be one answer.
/// </summary>
internal sealed class Kinds
{
    /// <summary>Paints whose hiding layers differ by less look alike, CIEDE2000.</summary>
    public const double OneKind = 3;

    private readonly Lab?[] _alone;
    private readonly List<Candidate> _chosen = [];

    // For each chosen recipe and each place of the shelf: which of the recipe's paints look like the paint there, one bit each.
    private readonly List<byte[]> _alike = [];
    private readonly HashSet<int> _barred = [];

    public Kinds(SearchScope scope)
    {
        // What a paint looks like by itself; a medium looks like nothing, and only like itself.
        var light = scope.Objective.Lights[0];
        var shelf = new SearchShelf(scope.Shelf.Paints, new View(light.Condition));
        _alone = [.. shelf.Paints.Select((paint, place) => paint.Kind == PaintKind.Paint ? shelf.ColorOf(Candidate.Of(place, 1)) : (Lab?)null)];
    }

    /// <summary>The recipes so far, each of its own kind.</summary>
    public IReadOnlyList<Candidate> Chosen => _chosen;

    /// <summary>Places whose paint can be in no recipe of a new kind: they look like one that is an answer by itself.</summary>
    public IReadOnlySet<int> Barred => _barred;

    /// <summary>Whether a recipe is of another kind than all so far.</summary>
    public bool IsNew(in Candidate candidate)
    {
        for (var i = 0; i < _chosen.Count; i++)
        {
            if (IsSame(candidate, _chosen[i], _alike[i]))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Adds a recipe of a new kind.</summary>
    public void Add(Candidate candidate)
    {
        var alike = Enumerable.Range(0, _alone.Length).Select(place => (byte)Enumerable.Range(0, candidate.Paints).Sum(i => AreAlike(place, candidate[i].Place) ? 1 << i : 0)).ToArray();
        _chosen.Add(candidate);
        _alike.Add(alike);
        if (candidate.Paints == 1)
        {
            _barred.UnionWith(Enumerable.Range(0, alike.Length).Where(place => alike[place] != 0));
        }
    }

    private static bool IsSame(in Candidate candidate, in Candidate chosen, byte[] alike)
    {
        if (chosen.Paints == 0 || candidate.Paints == 0)
        {
            return chosen.Paints == candidate.Paints;
        }

        var (covered, covers) = (0, true);
        for (var i = 0; i < candidate.Paints; i++)
        {
            var like = alike[candidate[i].Place];
            covered |= like;
            covers &= like != 0;
        }

        return covers || covered == (1 << chosen.Paints) - 1;
    }

    private bool AreAlike(int one, int other) =>
        one == other || (_alone[one] is { } x && _alone[other] is { } y && DeltaE2000.Between(x, y) < OneKind);
}
