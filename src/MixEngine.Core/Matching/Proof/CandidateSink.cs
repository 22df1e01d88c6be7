namespace MixEngine.Core;

/// <summary>Takes the candidates of a search, from any thread, and says how near to the target they must be to matter.</summary>
internal abstract class CandidateSink
{
    /// <summary>Largest difference that matters; it never grows.</summary>
    public abstract double Radius { get; }

    /// <summary>The filters' limits for <see cref="Radius"/> or for one a little larger.</summary>
    public abstract float[][] Limits { get; }

    /// <summary>Whether the difference of a candidate is worth working out.</summary>
    public virtual bool Wants(in Candidate candidate) => true;

    /// <summary>Takes a candidate with its exact difference.</summary>
    public abstract void Offer(in Candidate candidate, double difference);
}

/// <summary>Keeps the candidate of the smallest difference; between equals the first by paints, drops and places.</summary>
internal sealed class SmallestSink : CandidateSink
{
    // New limits cost about as much as a few thousand looks: worth it only when they are clearly closer.
    private const double Closer = 0.8;

    private readonly SearchScope _scope;
    private readonly double _enough;
    private readonly Action? _onEnough;
    private readonly Lock _lock = new();
    private double _radius;
    private double _limitsFor;
    private float[][] _limits;

    /// <summary>Begins with a candidate and its difference.</summary>
    /// <param name="scope">The search.</param>
    /// <param name="best">The best so far.</param>
    /// <param name="difference">Its difference, or the largest that matters.</param>
    /// <param name="enough">A difference below which no smaller one is wanted.</param>
    /// <param name="onEnough">Called when such a one was found.</param>
    public SmallestSink(SearchScope scope, Candidate best, double difference, double enough = -1, Action? onEnough = null)
    {
        (_scope, Best, _radius, _enough, _onEnough) = (scope, best, difference, enough, onEnough);
        (_limitsFor, _limits) = (difference, scope.LimitsFor(difference));
    }

    /// <summary>The candidate.</summary>
    public Candidate Best { get; private set; }

    /// <summary>The same, asked from another thread while the search goes on.</summary>
    public Candidate BestNow
    {
        get
        {
            lock (_lock)
            {
                return Best;
            }
        }
    }

    /// <summary>All candidates of the search with that smallest difference, in no order; empty where the search found none.</summary>
    public HashSet<Candidate> Nearest { get; } = [];

    public override double Radius => Volatile.Read(ref _radius);

    public override float[][] Limits => Volatile.Read(ref _limits);

    public override void Offer(in Candidate candidate, double difference)
    {
        if (difference > Radius)
        {
            return;
        }

        lock (_lock)
        {
            if (difference == _radius)
            {
                Nearest.Add(candidate);
                Best = IsBefore(candidate, Best) ? candidate : Best;
            }
            else if (difference < _radius)
            {
                Nearest.Clear();
                Nearest.Add(candidate);
                Best = candidate;
                Volatile.Write(ref _radius, difference);
                if (difference < Closer * _limitsFor)
                {
                    _limitsFor = difference;
                    Volatile.Write(ref _limits, _scope.LimitsFor(difference));
                }

                if (difference <= _enough)
                {
                    _onEnough?.Invoke();
                }
            }
        }
    }

    private static bool IsBefore(in Candidate one, in Candidate other) =>
        (one.Paints, one.Drops, one.A, one.B, one.C, one.DropsA, one.DropsB).CompareTo((other.Paints, other.Drops, other.A, other.B, other.C, other.DropsA, other.DropsB)) < 0;
}

/// <summary>Keeps all candidates between two differences, save those that are no news.</summary>
internal sealed class WithinSink : CandidateSink
{
    private readonly double _above;
    private readonly Func<Candidate, bool> _wanted;
    private readonly Lock _lock = new();
    private readonly List<(Candidate Candidate, double Difference)> _found = [];

    /// <summary>Keeps candidates of a difference above one and up to another.</summary>
    public WithinSink(double above, double upTo, float[][] limits, Func<Candidate, bool> wanted)
    {
        (_above, _wanted) = (above, wanted);
        Radius = upTo;
        Limits = limits;
    }

    /// <summary>What was found, in no order.</summary>
    public IReadOnlyList<(Candidate Candidate, double Difference)> Found => _found;

    public override double Radius { get; }

    public override float[][] Limits { get; }

    public override bool Wants(in Candidate candidate) => _wanted(candidate);

    public override void Offer(in Candidate candidate, double difference)
    {
        if (difference > _above && difference <= Radius)
        {
            lock (_lock)
            {
                _found.Add((candidate, difference));
            }
        }
    }
}
