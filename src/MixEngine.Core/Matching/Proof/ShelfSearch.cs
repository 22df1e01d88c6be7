namespace MixEngine.Core;

/// <summary>Searches a shelf for recipes of so many paints, on several threads.</summary>
internal sealed class ShelfSearch
{
    // Below so many recipes a second thread costs more than it saves.
    private const double WorthSharing = 200_000;

    // Looks at what is left when the time is up: some milliseconds.
    private const int QuickLooks = 4_000;

    private readonly SearchScope _scope;
    private readonly RoleDomains[] _domains;
    private readonly CompositionTree _compositions;
    private readonly int _paints;
    private readonly int _pieces;
    private readonly bool[] _finished;

    /// <summary>A search for so many paints and drops.</summary>
    /// <param name="scope">Shelf and target.</param>
    /// <param name="paints">0 to 3.</param>
    /// <param name="fewest">Fewest drops in all.</param>
    /// <param name="most">Most drops in all.</param>
    /// <param name="barred">Places that must not be in.</param>
    public ShelfSearch(SearchScope scope, int paints, int fewest, int most, IReadOnlySet<int>? barred = null)
    {
        (_scope, _paints) = (scope, paints);
        _domains = paints == 0 ? [] : [.. RoleDomains.All(scope.Blocks, paints, scope.Must, barred ?? new HashSet<int>())];
        _compositions = new CompositionTree(Math.Max(1, paints), fewest, paints == 0 ? 0 : most, scope.OnBase);
        _pieces = BlockSearch.Pieces(scope.Blocks, paints);
        _finished = new bool[_domains.Length * _pieces];
    }

    /// <summary>Searches them all; false when stopped before the end.</summary>
    /// <param name="sink">Takes what is found.</param>
    /// <param name="threads">Most threads; 0: as many as the machine has.</param>
    /// <param name="stop">Ends the search early.</param>
    /// <param name="progress">Called after each piece of work with the share that is done.</param>
    public bool Run(CandidateSink sink, int threads, CancellationToken stop, Action<double>? progress = null)
    {
        if (_paints == 0)
        {
            if (_scope.OnBase && _scope.Must.Length == 0)
            {
                sink.Offer(Candidate.None, _scope.DifferenceOf(Candidate.None));
            }

            return true;
        }

        var work = Math.Pow(_scope.Shelf.Paints.Length, _paints - _scope.Must.Length) * _compositions.Compositions.Length;
        var most = work < WorthSharing ? 1 : threads > 0 ? threads : Environment.ProcessorCount;
        var done = 0;

        // No scheduler: the current one, so that whoever gives searches threads of their own gives them to all of a search.
        Parallel.For(
            0, _finished.Length,
            new ParallelOptions { MaxDegreeOfParallelism = most, TaskScheduler = null },
            () => new BlockSearch[_domains.Length],
            (piece, loop, searches) =>
            {
                if (stop.IsCancellationRequested)
                {
                    loop.Stop();
                    return searches;
                }

                var (way, part) = Math.DivRem(piece, _pieces);
                (searches[way] ??= new BlockSearch(_scope, _compositions, _domains[way], sink, stop)).Search(part);
                _finished[piece] = !stop.IsCancellationRequested;
                progress?.Invoke((double)Interlocked.Increment(ref done) / _finished.Length);
                return searches;
            },
            _ => { });
        return Array.TrueForAll(_finished, finished => finished);
    }

    /// <summary>Whether what an interrupted search for three paints left undone holds nothing within a difference, as far as a quick look tells.</summary>
    public bool RestIsBeyond(double difference)
    {
        if (_paints != 3)
        {
            return false;
        }

        var limits = _scope.LimitsFor(difference);
        var looks = QuickLooks;
        for (var way = 0; way < _domains.Length; way++)
        {
            var search = new BlockSearch(_scope, _compositions, _domains[way], new WithinSink(0, 0, limits, _ => false), CancellationToken.None);
            for (var piece = 0; piece < _pieces; piece++)
            {
                if (!_finished[way * _pieces + piece] && search.MayHold(piece, limits, ref looks))
                {
                    return false;
                }
            }
        }

        return true;
    }
}
