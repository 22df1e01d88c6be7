namespace MixEngine.Core;

/// <summary>From the smallest difference to the few recipes that are answered, in the painter's order.</summary>
internal sealed class Answers
{
    /// <summary>Recipes up to this step of <see cref="MatchOrder"/> are worth an answer: with the usual tolerance, up to 2 CIEDE2000 above the best.</summary>
    public const int LastStep = 3;

    private readonly SearchScope _scope;
    private readonly MatchOptions _options;
    private readonly Kinds _kinds;
    private readonly Merits _merits;

    public Answers(SearchScope scope, MatchTarget target, MatchOptions options)
    {
        (_scope, _options) = (scope, options);
        _kinds = new Kinds(scope);
        _merits = new Merits(scope, target, options);
    }

    /// <summary>The recipes chosen.</summary>
    public IReadOnlyList<Candidate> Chosen => _kinds.Chosen;

    /// <summary>Chooses the first of each kind, in the painter's order; false when it was stopped before the first was certain.</summary>
    public bool Choose(SmallestDifference smallest, CancellationToken stop, Action<double> progress)
    {
        // First those that an eye cannot tell from the best. One that lies a little further off than what was found may lie too far off when
        // all is known: for the first that is found out, for the others it is enough what is known by then.
        var upTo = smallest.Found + _options.Tolerance;
        bool? IsIn(double difference) => _kinds.Chosen.Count == 0 ? smallest.IsWithinTolerance(difference) : difference <= smallest.NotBelow + _options.Tolerance;
        var complete = !smallest.IsStopped && (_options.Tolerance == 0 && smallest.IsKnown
            ? Take(0, smallest.AllNearest.Select(candidate => (candidate, smallest.Found)), IsIn, stop)
            : Walk(0, -1, upTo, IsIn, stop, progress));

        // Then, where these are few, those that an eye may tell from it, step by step.
        if (complete && _kinds.Chosen.Count < _options.Answers)
        {
            smallest.Pin();
            for (var step = 1; step <= LastStep && complete && !smallest.IsStopped && _kinds.Chosen.Count < _options.Answers; step++)
            {
                var above = smallest.Found + _options.Tolerance + (step - 1) * MatchOptions.Unseen;
                complete = Walk(step, above, above + MatchOptions.Unseen, _ => true, stop, progress);
            }
        }

        // When stopped early nothing is certain: answer with the nearest so far.
        if (_kinds.Chosen.Count == 0)
        {
            _kinds.Add(smallest.Nearest);
            return false;
        }

        return true;
    }

    // Few paints and few drops come first in the order: look there, and stop when there are enough; false when stopped before.
    private bool Walk(int step, double above, double upTo, Func<double, bool?> isIn, CancellationToken stop, Action<double> progress)
    {
        var limits = _scope.LimitsFor(upTo);
        var (walked, walks) = (0, Enumerable.Range(0, _options.Paints + 1).Sum(paints => Math.Max(0, MostDrops(paints) - paints + 1)));
        for (var paints = 0; paints <= _options.Paints; paints++)
        {
            for (var drops = paints; drops <= MostDrops(paints); drops++)
            {
                var sink = new WithinSink(above, upTo, limits, candidate => _kinds.IsNew(candidate));
                if (!new ShelfSearch(_scope, paints, drops, drops, _kinds.Barred).Run(sink, _options.Threads, stop, done => progress((walked + done) / walks)))
                {
                    return false;
                }

                walked++;
                if (!Take(step, sink.Found, isIn, stop))
                {
                    return false;
                }

                if (_kinds.Chosen.Count >= _options.Answers)
                {
                    return true;
                }
            }
        }

        return true;
    }

    // The first of each kind of some recipes; false when stopped before it was known whether one is near enough.
    private bool Take(int step, IEnumerable<(Candidate Candidate, double Difference)> found, Func<double, bool?> isIn, CancellationToken stop)
    {
        // Where they stand, looked up for as long as there is time.
        var standings = found.TakeWhile(_ => !stop.IsCancellationRequested).Select(one => _merits.StandingOf(one.Candidate, one.Difference, step)).ToList();
        if (stop.IsCancellationRequested)
        {
            return false;
        }

        foreach (var standing in standings.Order())
        {
            if (_kinds.Chosen.Count >= _options.Answers)
            {
                return true;
            }

            if (_kinds.IsNew(standing.Candidate))
            {
                switch (isIn(standing.DeltaE00))
                {
                    case null: return false;
                    case true: _kinds.Add(standing.Candidate); break;
                }
            }
        }

        return true;
    }

    // One paint alone needs no second drop, unless there is a base to add it to.
    private int MostDrops(int paints) => paints == 0 ? 0 : paints == 1 && !_scope.OnBase ? 1 : _options.Drops;
}
