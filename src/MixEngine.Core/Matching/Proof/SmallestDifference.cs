namespace MixEngine.Core;

/// <summary>
/// What is known of the smallest difference d* that any recipe of the shelf reaches: one that was found, and one below which there is none.
/// More is found out only as far as the painter's order asks: a recipe that an eye cannot tell from the target needs no proof that
/// another comes nearer still.
/// </summary>
internal sealed class SmallestDifference
{
    private readonly SearchScope _scope;
    private readonly MatchOptions _options;
    private readonly CancellationToken _stop;
    private readonly CancellationToken _gone;
    private readonly Action<SmallestDifference, double> _progress;
    private HashSet<Candidate> _nearest = [];
    private SmallestSink? _latest;
    private ShelfSearch? _running;

    /// <summary>Looks at all recipes of one and two paints, and at those of three until one is within the tolerance.</summary>
    public SmallestDifference(SearchScope scope, MatchOptions options, CancellationToken stop, CancellationToken gone, Action<SmallestDifference, double> progress)
    {
        (_scope, _options, _stop, _gone, _progress) = (scope, options, stop, gone, progress);

        // The simplest recipes are looked at in any case, so that there is always an answer. Then few paints first: they cost little, and
        // what they reach rules out much of the rest.
        (Nearest, Found) = Simplest();
        var sink = new SmallestSink(scope, Nearest, Found);
        for (var paints = 0; paints <= Math.Min(2, options.Paints) && !IsStopped; paints++)
        {
            IsStopped = !new ShelfSearch(scope, paints, paints, options.Drops).Run(sink, options.Threads, stop);
        }

        Take(sink);
        Volatile.Write(ref _latest, sink);
        if (IsStopped)
        {
            return;
        }

        IsKnown = options.Paints < 3 || options.Drops < 3 || Found == 0 || (Found > options.Tolerance && SearchThree(Found, options.Tolerance));
        NotBelow = IsKnown ? Found : NotBelow;
    }

    /// <summary>The nearest candidate, as of the last search.</summary>
    public Candidate Nearest { get; private set; }

    /// <summary>The nearest candidate at this moment, asked from any thread; nothing before the first search is done.</summary>
    public Candidate? NearestNow => Volatile.Read(ref _latest)?.BestNow;

    /// <summary>All candidates that were found to be as near.</summary>
    public IReadOnlyCollection<Candidate> AllNearest => _nearest;

    /// <summary>Its difference.</summary>
    public double Found { get; private set; }

    /// <summary>No recipe is nearer than this.</summary>
    public double NotBelow { get; private set; }

    /// <summary>The same at this moment, asked from any thread; it takes a quick look at what has not been searched.</summary>
    public double NotBelowNow => Volatile.Read(ref _running) is { } search && Volatile.Read(ref _latest) is { } sink ? BoundOf(search, sink) : NotBelow;

    /// <summary>Whether d* is known: <see cref="Found"/>.</summary>
    public bool IsKnown { get; private set; }

    /// <summary>Whether a search was stopped before its end.</summary>
    public bool IsStopped { get; private set; }

    /// <summary>Whether a difference is at most d* plus the tolerance; nothing when stopped before that was known.</summary>
    public bool? IsWithinTolerance(double difference)
    {
        if (difference <= NotBelow + _options.Tolerance)
        {
            return true;
        }

        // Is any recipe nearer by more than the tolerance? Only those of three paints were not all looked at.
        if (difference <= Found + _options.Tolerance && !IsKnown && !IsStopped)
        {
            var least = difference - _options.Tolerance;
            NotBelow = SearchThree(least, least - 1e-9) ? Math.Max(NotBelow, least) : NotBelow;
        }

        return difference > Found + _options.Tolerance ? false : IsStopped ? null : true;
    }

    /// <summary>Finds d* itself.</summary>
    public void Pin()
    {
        if (!IsKnown && !IsStopped)
        {
            IsKnown = SearchThree(Found, -1);
            NotBelow = IsKnown ? Found : NotBelow;
        }
    }

    // Looks at all recipes of three paints up to a radius until one is near enough; true when none was, and so all were looked at.
    private bool SearchThree(double radius, double enough)
    {
        using var satisfied = CancellationTokenSource.CreateLinkedTokenSource(_stop);
        var sink = new SmallestSink(_scope, Nearest, radius, enough, satisfied.Cancel);
        Volatile.Write(ref _latest, sink);
        var search = new ShelfSearch(_scope, 3, 3, _options.Drops);
        Volatile.Write(ref _running, search);
        var complete = search.Run(sink, _options.Threads, satisfied.Token, done => _progress(this, done));
        Volatile.Write(ref _running, null);
        Take(sink);
        if (!complete && _stop.IsCancellationRequested)
        {
            // Nothing is known of the rest but what a quick look tells, if anybody is there to be told.
            _gone.ThrowIfCancellationRequested();
            IsStopped = true;
            NotBelow = BoundOf(search, sink);
        }

        return complete;
    }

    // What was looked at holds nothing nearer than the radius; the rest is looked at coarsely, for a bound as near to it as that shows.
    private double BoundOf(ShelfSearch search, SmallestSink sink)
    {
        var radius = sink.Radius;
        double[] shares = [0.9, 0.7, 0.5, 0.25];
        return Math.Max(NotBelow, shares.Select(share => share * radius).FirstOrDefault(search.RestIsBeyond));
    }

    private void Take(SmallestSink sink)
    {
        if (sink.Nearest.Count == 0)
        {
            return;
        }

        // Between two searches the smaller difference counts; what is equal adds up.
        _nearest = sink.Radius < Found ? sink.Nearest : [.. _nearest, .. sink.Nearest];
        (Nearest, Found) = (sink.Best, sink.Radius);
    }

    // The paints that must be in, one drop each, alone and with any other paint.
    private (Candidate, double) Simplest()
    {
        var must = _scope.Must;
        var seats = must.Select(place => (Place: place, Drops: 1)).Concat(Enumerable.Repeat((Place: -1, Drops: 0), 3)).Take(3).ToArray();
        var others = must.Length < _options.Paints && must.Length < _options.Drops
            ? Enumerable.Range(0, _scope.Shelf.Paints.Length).Where(place => !must.Contains(place))
            : [];
        var candidates = others.Select(place =>
        {
            var taken = ((int Place, int Drops)[])seats.Clone();
            taken[must.Length] = (place, 1);
            return Candidate.Sorted(taken[0], taken[1], taken[2]);
        });
        candidates = must.Length > 0 ? candidates.Prepend(Candidate.Sorted(seats[0], seats[1], seats[2])) : candidates;
        var (best, difference) = candidates.Select(candidate => (candidate, _scope.DifferenceOf(candidate))).MinBy(one => one.Item2);
        return double.IsFinite(difference)
            ? (best, difference)
            : throw new ArgumentException("No recipe with pigment keeps the options; allow one more paint, or name fewer that must be in.");
    }
}
