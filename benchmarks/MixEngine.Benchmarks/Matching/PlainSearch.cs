using System.Runtime.Intrinsics;
using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Benchmarks.Matching;

/// <summary>
/// The straightforward way: every recipe of one to three paints, the bands of each side by side in vectors, on all cores.
/// It keeps what is near enough to the best to be an answer, and puts that in the painter's order at the end.
/// </summary>
internal sealed class PlainSearch
{
    private const int Padded = 40;

    private readonly Paint[] _paints;
    private readonly float[] _k;
    private readonly float[] _s;
    private readonly float[] _weights = new float[3 * Padded];
    private readonly Xyz _white;
    private readonly Lab _aim;
    private readonly int _drops;
    private readonly double _tolerance;
    private readonly Lock _lock = new();
    private readonly List<Found> _found = [];
    private double _best = double.PositiveInfinity;

    public PlainSearch(IEnumerable<Paint> paints, MatchTarget target, int drops, double tolerance)
    {
        _paints = [.. paints.OrderBy(paint => paint.Id, StringComparer.Ordinal)];
        (_drops, _tolerance, _aim) = (drops, tolerance, target.Under(ViewingCondition.Default));
        _k = new float[_paints.Length * Padded];
        _s = new float[_paints.Length * Padded];
        var weights = TristimulusWeights.For(ViewingCondition.Default);
        _white = weights.White;
        for (var band = 0; band < Padded; band++)
        {
            var inside = band < SpectralGrid.Bands;
            for (var i = 0; i < _paints.Length; i++)
            {
                _k[i * Padded + band] = inside ? (float)_paints[i].Optics.K[band] : 1;
                _s[i * Padded + band] = inside ? (float)_paints[i].Optics.S[band] : 1;
            }

            _weights[band] = inside ? (float)weights.X[band] : 0;
            _weights[Padded + band] = inside ? (float)weights.Y[band] : 0;
            _weights[2 * Padded + band] = inside ? (float)weights.Z[band] : 0;
        }
    }

    /// <summary>Recipes looked at.</summary>
    public long Tried { get; private set; }

    /// <summary>Looks at all recipes, or at those of a sample of first paints, and gives the best of them in the painter's order.</summary>
    /// <param name="every">Looks only at every so many first paints, the middle one of each.</param>
    public Recipe Run(int every = 1)
    {
        var n = _paints.Length;
        Parallel.For(0, n / every, () => (Tried: 0L, Found: new List<Found>()), (group, _, local) =>
        {
            var a = group * every + every / 2;
            Try(ref local.Tried, local.Found, a, 1, a, 0, a, 0);
            for (var b = a + 1; b < n; b++)
            {
                for (var i = 1; i < _drops; i++)
                {
                    for (var j = 1; i + j <= _drops; j++)
                    {
                        if (Divisor(i, j) == 1)
                        {
                            Try(ref local.Tried, local.Found, a, i, b, j, a, 0);
                        }

                        for (var c = b + 1; c < n; c++)
                        {
                            for (var k = 1; i + j + k <= _drops; k++)
                            {
                                if (Divisor(Divisor(i, j), k) == 1)
                                {
                                    Try(ref local.Tried, local.Found, a, i, b, j, c, k);
                                }
                            }
                        }
                    }
                }
            }

            return local;
        }, local =>
        {
            lock (_lock)
            {
                Tried += local.Tried;
                _found.AddRange(local.Found.Where(IsNear));
            }
        });
        return First();
    }

    private void Try(ref long tried, List<Found> found, int a, int i, int b, int j, int c, int k)
    {
        var (x, y, z) = (Vector256<float>.Zero, Vector256<float>.Zero, Vector256<float>.Zero);
        for (var band = 0; band < Padded; band += Vector256<float>.Count)
        {
            var absorbed = i * Load(_k, a, band) + j * Load(_k, b, band) + k * Load(_k, c, band);
            var scattered = i * Load(_s, a, band) + j * Load(_s, b, band) + k * Load(_s, c, band);
            var seen = 0.384f * scattered / (absorbed + 0.4f * scattered + Vector256.Sqrt(absorbed * (absorbed + 2 * scattered)));
            x += seen * Load(_weights, 0, band);
            y += seen * Load(_weights, 1, band);
            z += seen * Load(_weights, 2, band);
        }

        tried++;
        var lab = Lab.FromXyz(new(Vector256.Sum(x), Vector256.Sum(y), Vector256.Sum(z)), _white);

        // Lightness alone rules most out: its weight is at most 1.75.
        var limit = Volatile.Read(ref _best) + _tolerance + 1e-3;
        if (Math.Abs(lab.L - _aim.L) > 1.75 * limit)
        {
            return;
        }

        var difference = DeltaE2000.Between(_aim, lab);
        if (difference <= limit)
        {
            found.Add(new(a, i, b, j, c, k, difference));
            lock (_lock)
            {
                _best = Math.Min(_best, difference);
            }
        }
    }

    // Of those an eye cannot tell from the best, by the painter's order: fewest paints, fewest drops, and only then the rest.
    private Recipe First()
    {
        var exact = _found.Where(IsNear).Select(found => (found, Recipe: RecipeOf(found))).Select(one => (one.found, one.Recipe, Difference: Difference(one.Recipe))).ToArray();
        var smallest = exact.Min(one => one.Difference);
        var equal = exact.Where(one => one.Difference <= smallest + _tolerance).ToArray();
        var paints = equal.Min(one => one.Recipe.Parts.Count);
        var drops = equal.Where(one => one.Recipe.Parts.Count == paints).Min(one => one.Recipe.Total);
        return equal.Where(one => one.Recipe.Parts.Count == paints && one.Recipe.Total == drops)
            .OrderBy(one => Steps(one.Recipe.Parts.Max(part => Difference(WithOneMore(one.Recipe, part)))))
            .ThenBy(one => Steps(Lamps.Usual.Max(lamp => Difference(one.Recipe, lamp))))
            .ThenBy(one => one.Difference)
            .ThenBy(one => (one.found.A, one.found.B, one.found.C, one.found.I, one.found.J, one.found.K))
            .First().Recipe;
    }

    private bool IsNear(Found found) => found.Difference <= _best + _tolerance + 1e-3;

    private Recipe RecipeOf(Found found) => new(new[] { (found.A, found.I), (found.B, found.J), (found.C, found.K) }
        .Where(part => part.Item2 > 0).Select(part => new Part(_paints[part.Item1], part.Item2))
        .OrderByDescending(part => part.Parts).ThenBy(part => part.Paint.Id, StringComparer.Ordinal));

    private static Recipe WithOneMore(Recipe recipe, Part of) => new(recipe.Parts.Select(part => part == of ? part with { Parts = part.Parts + 1 } : part));

    private double Difference(Recipe recipe) => Math.Round(DeltaE2000.Between(_aim, Prediction.AppearanceOf(recipe, View.Default).Lab), 9);

    private double Difference(Recipe recipe, Illuminant lamp)
    {
        var condition = ViewingCondition.Default with { Illuminant = lamp };
        return Math.Round(DeltaE2000.Between(Target.Under(condition), Prediction.AppearanceOf(recipe, new View(condition)).Lab), 9);
    }

    /// <summary>The target, for the lamps.</summary>
    public required MatchTarget Target { get; init; }

    private static double Steps(double difference) => Math.Ceiling(difference / MatchOptions.Unseen);

    private static Vector256<float> Load(float[] values, int row, int band) => Vector256.LoadUnsafe(ref values[row * Padded], (nuint)band);

    private static int Divisor(int x, int y)
    {
        while (y != 0)
        {
            (x, y) = (y, x % y);
        }

        return x;
    }

    private readonly record struct Found(int A, int I, int B, int J, int C, int K, double Difference);
}
