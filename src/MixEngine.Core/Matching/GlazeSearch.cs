using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// The glaze asked backwards: which let-down and how many coats bring a layer to a colour. Every paint, every let-down and every number of coats is looked at.
/// Over several layers at once (a ramp to be unified) hue and chroma are to come near the target's while each layer keeps its own lightness.
/// </summary>
public sealed class GlazeSearch
{
    /// <summary>Glazes within so much of the nearest count as equal, CIEDE2000: the fewest coats win.</summary>
    public const double Level = MatchOptions.Unseen;

    private readonly SeenStack[] _layers;
    private readonly PaintedSurface[] _surfaces;
    private readonly Lab[] _before;
    private readonly Lab _target;
    private readonly View _view;
    private readonly GlazeSearchOptions _options;

    private GlazeSearch(PaintedSurface[] surfaces, Lab target, View view, GlazeSearchOptions options)
    {
        (_surfaces, _target, _view, _options) = (surfaces, target, view, options);
        _layers = [.. surfaces.Select(surface => surface.Stack())];
        _before = [.. _layers.Select(layer => layer.LabUnder(view))];
    }

    /// <summary>Looks for the glaze.</summary>
    /// <param name="surfaces">The layer, or the layers of a ramp in their order.</param>
    /// <param name="target">The colour, under the light and eye of the view.</param>
    /// <param name="paints">What may be let down: one recipe, or a whole shelf of them; each with pigment.</param>
    /// <param name="view">How it is looked at.</param>
    /// <param name="options">What is tried; null: medium up to ten parts, ten coats.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <exception cref="ArgumentException">There is no layer, or no recipe with pigment.</exception>
    public static GlazeSearchResult Find(
        IReadOnlyList<PaintedSurface> surfaces, Lab target, IEnumerable<Recipe> paints, View view, GlazeSearchOptions? options = null, CancellationToken cancellation = default)
    {
        Recipe[] pigmented = [.. paints.Where(recipe => recipe.HasPigment)];
        if (surfaces.Count == 0 || pigmented.Length == 0)
        {
            throw new ArgumentException(surfaces.Count == 0 ? "There is no layer to glaze." : "There is no paint to glaze with; name at least one with pigment.", surfaces.Count == 0 ? nameof(surfaces) : nameof(paints));
        }

        return new GlazeSearch([.. surfaces], target, view, options ?? new GlazeSearchOptions()).Search(pigmented, cancellation);
    }

    private sealed record Tried(Recipe Undiluted, double MediumParts, int Coats, double DeltaE00, bool Merges, Lab[] After);

    private GlazeSearchResult Search(Recipe[] paints, CancellationToken cancellation)
    {
        // Of each paint the nearest that keeps the layers apart; how dark and how light it may get is remembered of all.
        var ofEach = new List<Tried>();
        var (darkest, lightest) = (double.PositiveInfinity, double.NegativeInfinity);
        foreach (var paint in paints)
        {
            var tried = new List<Tried>();
            foreach (var medium in _options.MediumParts)
            {
                cancellation.ThrowIfCancellationRequested();
                tried.AddRange(Try(paint, medium));
            }

            ofEach.Add(Best(tried));
            darkest = Math.Min(darkest, tried.Min(one => one.After[0].L));
            lightest = Math.Max(lightest, tried.Max(one => one.After[0].L));
        }

        Tried[] chosen = [.. ofEach.OrderBy(tried => tried.Merges).ThenBy(tried => tried.DeltaE00).Take(_options.Answers)];
        var best = chosen[0];
        var reached = best.DeltaE00 <= _options.Tolerance && !best.Merges;
        return new GlazeSearchResult([.. chosen.Select(tried => Describe(tried, cancellation))], reached, reached ? null : Reason(best, darkest, lightest));
    }

    // Within the tolerance, or within what an eye sees of the nearest, the fewest coats.
    private Tried Best(IEnumerable<Tried> ofOnePaint)
    {
        var apart = ofOnePaint.ToLookup(tried => tried.Merges);
        var fit = (apart[false].Any() ? apart[false] : apart[true]).ToArray();
        var nearest = fit.Min(tried => tried.DeltaE00);
        var enough = nearest <= _options.Tolerance ? _options.Tolerance : nearest + Level;
        return fit.Where(tried => tried.DeltaE00 <= enough).OrderBy(tried => tried.Coats).ThenBy(tried => tried.DeltaE00).First();
    }

    // One let-down, coat by coat, over all layers.
    private IEnumerable<Tried> Try(Recipe paint, double medium)
    {
        var coats = new Coats(paint.LetDown(medium, _options.WaterParts), _options.MostCoats, _options.CoatUm);
        var after = _layers.Select(layer => coats.Over(layer).Select(stack => stack.LabUnder(_view)).ToArray()).ToArray();
        for (var coat = 0; coat < coats.Count; coat++)
        {
            Lab[] seen = [.. after.Select(layer => layer[coat])];
            yield return new Tried(paint, medium, coat + 1, seen.Average(Off), Merge(seen), seen);
        }
    }

    private double Off(Lab seen) => DeltaE2000.Between(_layers.Length == 1 ? _target : _target with { L = seen.L }, seen);

    // Layers that were told apart and no longer are, or that change places.
    private bool Merge(Lab[] seen) =>
        Enumerable.Range(1, seen.Length - 1).Any(i =>
            DeltaE2000.Between(_before[i - 1], _before[i]) >= 1
            && (DeltaE2000.Between(seen[i - 1], seen[i]) < 1 || Math.Sign(seen[i].L - seen[i - 1].L) == -Math.Sign(_before[i].L - _before[i - 1].L)));

    private GlazeMatch Describe(Tried tried, CancellationToken cancellation)
    {
        var coats = new Coats(tried.Undiluted.LetDown(tried.MediumParts, _options.WaterParts), tried.Coats, _options.CoatUm);
        var glazes = _surfaces.Select(surface => Glaze.Over(surface, coats, _view, cancellation)).ToArray();
        GlazedLayer[] layers =
        [
            .. glazes.Select((glaze, i) =>
            {
                var last = glaze.Coats[^1];
                return new GlazedLayer(
                    glaze.Beneath, last.Appearance, last.ExpectedError, Off(last.Appearance.Lab),
                    i == 0 ? null : DeltaE2000.Between(glazes[i - 1].Coats[^1].Appearance.Lab, last.Appearance.Lab));
            }),
        ];
        var merging = tried.Merges ? ["Steps that were apart merge or change places under it."] : Array.Empty<string>();
        return new GlazeMatch(
            tried.Undiluted, coats, tried.MediumParts, _options.WaterParts, layers, tried.DeltaE00,
            [.. glazes.SelectMany(glaze => glaze.Remarks).Distinct(), .. merging]);
    }

    private string Reason(Tried best, double darkest, double lightest)
    {
        if (_layers.Length == 1)
        {
            // A glaze lightens by its scattering and darkens by its absorption, each only so far.
            if (_target.L > lightest + _options.Tolerance)
            {
                return Text($"The target is at L {_target.L:0}; the layer is at L {_before[0].L:0}, and the scattering of what may be let down lifts it to L {lightest:0} at most. A glaze does not lighten a hiding layer: brush a lighter layer first.");
            }

            if (_target.L < darkest - _options.Tolerance)
            {
                return Text($"The target is at L {_target.L:0}; {_options.MostCoats} coats darken this layer to L {darkest:0} at most.");
            }
        }

        // Else it is the hue or the chroma that the paint does not have.
        var farther = best.Coats == _options.MostCoats ? " More coats would come nearer." : "";
        var layer = Enumerable.Range(0, _layers.Length).MaxBy(i => Off(best.After[i]));
        var aim = _layers.Length == 1 ? _target : _target with { L = best.After[layer].L };
        return Text($"{Capital(Shortfall.Of(aim, best.After[layer]).Words)} ({Off(best.After[layer]):0.0} dE00): '{best.Undiluted}' pulls elsewhere.{farther}");
    }

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}
