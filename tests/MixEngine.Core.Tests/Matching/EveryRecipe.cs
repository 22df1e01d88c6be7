using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests.Matching;

/// <summary>
/// The slow obvious search, the oracle of the fast one: it predicts every recipe that the options admit, by nothing but the public
/// prediction, and sorts them as the painter's order is written down.
/// </summary>
internal sealed class EveryRecipe
{
    private readonly MatchTarget _target;
    private readonly MatchOptions _options;
    private readonly Paint[] _paints;
    private readonly (ViewingCondition Condition, double Share)[] _lights;

    public EveryRecipe(MatchTarget target, IEnumerable<Paint> paints, MatchOptions options)
    {
        (_target, _options) = (target, options);
        _paints = [.. paints.Where(paint => (paint.Kind == PaintKind.Paint || (paint.Kind == PaintKind.Medium && options.MediumAllowed)) && !options.MustNot.Contains(paint.Id))
            .OrderBy(paint => paint.Id, StringComparer.Ordinal)];
        var condition = options.View.Condition;
        var weight = options.Lights.Sum(light => light.Weight);
        _lights = options.Lights.Count == 0
            ? [(condition, 1.0)]
            : [.. options.Lights.Select(light => (condition with { Illuminant = light.Light }, light.Weight / weight))];
        All = [.. Additions().Select(Try).OfType<Tried>()];
        Smallest = All.Min(one => one.Difference);
    }

    /// <summary>Every recipe with its difference.</summary>
    public Tried[] All { get; }

    /// <summary>The smallest difference.</summary>
    public double Smallest { get; }

    /// <summary>All within the tolerance of the smallest, in the painter's order.</summary>
    public IEnumerable<Tried> InOrder() => All
        .Where(one => one.Difference <= Smallest + _options.Tolerance)
        .OrderBy(one => one.Added.Length)
        .ThenBy(one => one.Added.Sum(part => part.Parts))
        .ThenBy(Harm)
        .ThenBy(one => Math.Ceiling(WorstLamp(one.Recipe) / 0.5))
        .ThenByDescending(one => one.Added.Select(part => part.Paint).Where(paint => paint.Kind == PaintKind.Paint).Select(paint => paint.Grade).DefaultIfEmpty(Grade.History).Min())
        .ThenBy(one => one.Difference)
        .ThenBy(one => string.Join('\n', one.Added.Select(part => part.Paint.Id)), StringComparer.Ordinal)
        .ThenBy(one => string.Join('\n', one.Added.Select(part => ((int)part.Parts).ToString("00"))), StringComparer.Ordinal);

    public sealed record Tried(Part[] Added, Recipe Recipe, double Difference);

    private IEnumerable<Part[]> Additions()
    {
        var must = _options.Must.Where(id => _options.Base?.Parts.Any(part => part.Paint.Id == id) is not true).ToArray();
        for (var paints = _options.Base is null ? 1 : 0; paints <= _options.Paints; paints++)
        {
            foreach (var set in Sets(paints, 0).Where(set => must.All(id => set.Any(i => _paints[i].Id == id))))
            {
                foreach (var drops in Drops(paints, _options.Drops).Where(drops => _options.Base is not null || drops.Aggregate(0, Divisor) == 1))
                {
                    yield return [.. set.Zip(drops, (i, count) => new Part(_paints[i], count))];
                }
            }
        }
    }

    private IEnumerable<int[]> Sets(int count, int from) => count == 0
        ? [[]]
        : Enumerable.Range(from, Math.Max(0, _paints.Length - from)).SelectMany(first => Sets(count - 1, first + 1).Select(rest => (int[])[first, .. rest]));

    private static IEnumerable<int[]> Drops(int count, int most) => count == 0
        ? [[]]
        : Enumerable.Range(1, Math.Max(0, most)).SelectMany(first => Drops(count - 1, most - first).Select(rest => (int[])[first, .. rest]));

    private static int Divisor(int x, int y) => y == 0 ? x : Divisor(y, x % y);

    private Tried? Try(Part[] added)
    {
        if (WithBase(added) is not { HasPigment: true } recipe)
        {
            return null;
        }

        return new(added, recipe, Difference(recipe));
    }

    private Recipe WithBase(Part[] added) => new((_options.Base?.Parts ?? []).Concat(added)
        .GroupBy(part => part.Paint.Id).Select(same => new Part(same.First().Paint, same.Sum(part => part.Parts)))
        .OrderBy(part => part.Paint.Id, StringComparer.Ordinal));

    private double Difference(Recipe recipe)
    {
        var differences = _lights.Select(light => (Difference: Under(light.Condition, recipe), light.Share)).ToArray();
        return Math.Round(_options.LightRule == LightRule.Worst ? differences.Max(one => one.Difference) : differences.Sum(one => one.Difference * one.Share), 9);
    }

    private double Under(ViewingCondition condition, Recipe recipe) =>
        DeltaE2000.Between(_target.Under(condition), Prediction.AppearanceOf(recipe, new View(condition, _options.View.Finish)).Lab);

    private double Harm(Tried tried) => tried.Added.Length == 0
        ? Math.Ceiling(tried.Difference / 0.5)
        : tried.Added.Max(more => Math.Ceiling(Difference(WithBase([.. tried.Added.Select(part => part == more ? part with { Parts = part.Parts + 1 } : part)])) / 0.5));

    private double WorstLamp(Recipe recipe) => Lamps.Usual.Select(lamp => _options.View.Condition with { Illuminant = lamp })
        .Concat(_lights.Select(light => light.Condition)).Max(condition => Math.Round(Under(condition, recipe), 9));
}
