using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// Finds the ramp without faults that is nearest in drops to a given one: all ways to add or take away one drop are tried, then two, and so on.
/// A step may get and lose drops of its own and its neighbours' paints. The ends stay.
/// </summary>
internal sealed class DropMending(IReadOnlyList<Recipe> ramp, View view, RampOptions options, CancellationToken cancellation)
{
    /// <summary>The most drops that are changed in all.</summary>
    public const int MostDrops = 6;

    // The most drops that are changed in one step: fewer where many paints make many ways.
    private static int Reach(int paints) => paints switch { <= 3 => 4, <= 5 => 3, <= 10 => 2, _ => 1 };

    // Ways begun; beyond so many the search would keep a caller waiting.
    private const int MostWays = 400_000;

    // A step may be at most so many times another: else one of them is a fault beside any usual step between.
    private const double LargestRatio = RampFaults.Band / RampFaults.TooClose;

    private readonly double[] _weights = options.Weights(ramp.Count - 1);
    private readonly Candidate[][] _candidates = [.. Enumerable.Range(0, ramp.Count).Select(place => CandidatesOf(place, ramp, view, options))];
    private readonly Dictionary<(int Place, int From, int To), double> _sizes = [];
    private int _ways;

    /// <summary>The steps of the mended ramp; those that need no change are the very recipes given. Null where nothing so small mends it.</summary>
    public IReadOnlyList<Recipe>? Smallest()
    {
        for (var drops = 1; drops <= MostDrops && _ways < MostWays; drops++)
        {
            var search = new Search(this, new int[ramp.Count]);
            search.From(1, drops, double.PositiveInfinity, 0);
            if (search.Best is { } best)
            {
                return [.. best.Select((candidate, place) => _candidates[place][candidate].Recipe)];
            }
        }

        return null;
    }

    /// <summary>Drops added and taken away to make one recipe from another.</summary>
    public static int Distance(Recipe one, Recipe other) =>
        (int)Math.Round(one.Parts.Concat(other.Parts).Select(part => part.Paint.Id).Distinct().Sum(id => Math.Abs(Drops(one, id) - Drops(other, id))));

    private static double Drops(Recipe recipe, string id) => recipe.Parts.Where(part => part.Paint.Id == id).Sum(part => part.Parts);

    private sealed record Candidate(Recipe Recipe, int Changed, Lab Lab);

    // The step itself, then all that a few drops make of it, the fewest first.
    private static Candidate[] CandidatesOf(int place, IReadOnlyList<Recipe> ramp, View view, RampOptions options)
    {
        var own = ramp[place];
        var found = new List<Candidate> { new(own, 0, Prediction.LabOf(own, view)) };
        if (place == 0 || place == ramp.Count - 1 || own.Parts.Any(part => part.Parts != Math.Round(part.Parts)))
        {
            return [.. found];
        }

        Paint[] paints = [.. ramp.Skip(place - 1).Take(3).SelectMany(recipe => recipe.Parts).Select(part => part.Paint).DistinctBy(paint => paint.Id)];
        int[] drops = [.. paints.Select(paint => (int)Drops(own, paint.Id))];
        var most = Math.Max(options.Drops, drops.Sum());
        var reach = Reach(paints.Length);
        void Change(int paint, int left)
        {
            if (paint == paints.Length)
            {
                if (left < reach && drops.Sum() is var total && total > 0 && total <= most)
                {
                    var recipe = new Recipe(drops.Select((count, p) => new Part(paints[p], count)).Where(part => part.Parts > 0));
                    if (recipe.HasPigment)
                    {
                        found.Add(new Candidate(recipe, reach - left, Prediction.LabOf(recipe, view)));
                    }
                }

                return;
            }

            var before = drops[paint];
            for (var by = -Math.Min(left, before); by <= left; by++)
            {
                drops[paint] = before + by;
                Change(paint + 1, left - Math.Abs(by));
            }

            drops[paint] = before;
        }

        Change(0, reach);
        return [.. found.OrderBy(candidate => candidate.Changed)];
    }

    // Size of a step between two candidates; below 0 where it leads down.
    private double SizeOf(int place, int from, int to)
    {
        if (!_sizes.TryGetValue((place, from, to), out var size))
        {
            var (before, after) = (_candidates[place - 1][from].Lab, _candidates[place][to].Lab);
            size = after.L < before.L ? -1 : DeltaE2000.Between(before, after);
            _sizes[(place, from, to)] = size;
        }

        return size;
    }

    private sealed class Search(DropMending mending, int[] chosen)
    {
        private double _least = double.PositiveInfinity;

        /// <summary>The least uneven of all ways without a fault.</summary>
        public int[]? Best { get; private set; }

        /// <summary>Goes on from a place with so many drops left to change, and the smallest and largest share so far.</summary>
        public void From(int place, int left, double smallest, double largest)
        {
            if (place == chosen.Length)
            {
                Weigh(left);
                return;
            }

            for (var to = 0; to < mending._candidates[place].Length && mending._candidates[place][to].Changed <= left; to++)
            {
                if (++mending._ways > MostWays)
                {
                    return;
                }

                if ((mending._ways & 0xfff) == 0)
                {
                    mending.Cancellation.ThrowIfCancellationRequested();
                }

                var size = mending.SizeOf(place, chosen[place - 1], to);
                var share = size / mending._weights[place - 1];
                var (min, max) = (Math.Min(smallest, share), Math.Max(largest, share));
                if (size >= StepRemarks.HardlySeen && (max <= LargestRatio * min || max < RampFaults.SmallestBand))
                {
                    chosen[place] = to;
                    From(place + 1, left - mending._candidates[place][to].Changed, min, max);
                }
            }
        }

        private void Weigh(int left)
        {
            if (left > 0)
            {
                return;
            }

            Lab[] labs = [.. chosen.Select((candidate, place) => mending._candidates[place][candidate].Lab)];
            if (new RampFaults(labs, mending._weights).Find(place => place).Count == 0)
            {
                var unevenness = Unevenness.Of([.. mending._weights.Select((weight, i) => mending.SizeOf(i + 1, chosen[i], chosen[i + 1]) / weight)]);
                if (unevenness < _least)
                {
                    (_least, Best) = (unevenness, [.. chosen]);
                }
            }
        }
    }

    private CancellationToken Cancellation => cancellation;
}
