using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>Looks at every recipe of the shelf, one after the other.</summary>
internal sealed class ExhaustiveSearch(SearchShelf shelf, MatchTarget target, MatchOptions options)
{
    // Between two looks at the clock: at most about a millisecond.
    private const int TriedBetweenChecks = 1024;

    private readonly Lab _aim = target.Under(options.View.Condition);
    private List<(Candidate Candidate, double DeltaE00)> _found = [];
    private int _pruneAt = 4096;
    private CancellationToken _stop;

    /// <summary>The smallest difference of all.</summary>
    public double Best { get; private set; } = double.PositiveInfinity;

    /// <summary>Recipes looked at.</summary>
    public long Tried { get; private set; }

    /// <summary>All recipes near enough to the best to be an answer.</summary>
    public IReadOnlyList<(Candidate Candidate, double DeltaE00)> Found => _found;

    /// <summary>Searches; false when it was stopped before the end.</summary>
    public bool Run(CancellationToken stop)
    {
        _stop = stop;

        // The paints alone are looked at in any case, so that there is always an answer.
        for (var a = 0; a < shelf.Paints.Length; a++)
        {
            Try(Candidate.Of(a, 1));
        }

        var complete = Pairs() && Triples();
        Prune();
        return complete;
    }

    private bool Pairs()
    {
        for (var a = 0; options.Paints >= 2 && a < shelf.Paints.Length; a++)
        {
            for (var b = a + 1; b < shelf.Paints.Length; b++)
            {
                for (var i = 1; i < options.Drops; i++)
                {
                    for (var j = 1; i + j <= options.Drops; j++)
                    {
                        if (Candidate.IsReduced(i, j, 0) && !Try(Candidate.Of(a, i, b, j)))
                        {
                            return false;
                        }
                    }
                }
            }
        }

        return true;
    }

    private bool Triples()
    {
        for (var a = 0; options.Paints >= 3 && a < shelf.Paints.Length; a++)
        {
            for (var b = a + 1; b < shelf.Paints.Length; b++)
            {
                for (var c = b + 1; c < shelf.Paints.Length; c++)
                {
                    if (!Compositions(a, b, c))
                    {
                        return false;
                    }
                }
            }
        }

        return true;
    }

    private bool Compositions(int a, int b, int c)
    {
        for (var i = 1; i <= options.Drops - 2; i++)
        {
            for (var j = 1; i + j < options.Drops; j++)
            {
                for (var k = 1; i + j + k <= options.Drops; k++)
                {
                    if (Candidate.IsReduced(i, j, k) && !Try(new Candidate(a, i, b, j, c, k)))
                    {
                        return false;
                    }
                }
            }
        }

        return true;
    }

    private bool Try(in Candidate candidate)
    {
        Tried++;
        var difference = DeltaE2000.Between(_aim, shelf.ColorOf(candidate));
        Best = Math.Min(Best, difference);
        if (MatchOrder.StepOf(difference, Best, options.Tolerance) <= Answers.LastStep)
        {
            _found.Add((candidate, difference));
            if (_found.Count > _pruneAt)
            {
                Prune();
                _pruneAt = Math.Max(_pruneAt, 2 * _found.Count);
            }
        }

        return Tried % TriedBetweenChecks != 0 || !_stop.IsCancellationRequested;
    }

    private void Prune() => _found = _found.FindAll(found => MatchOrder.StepOf(found.DeltaE00, Best, options.Tolerance) <= Answers.LastStep);
}
