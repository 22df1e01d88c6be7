using System.Globalization;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>Which new swatch would tell most of a paint.</summary>
/// <remarks>
/// A candidate is added to the fit as if it had been measured; since the spread of a linear fit does not depend on what the reading
/// turns out to be, the spread that is left is known beforehand. The best candidate leaves the smallest mean error over
/// what painters do with a paint: lighten and darken it.
/// </remarks>
public static class SwatchAdvice
{
    // Let-downs that can be counted in drops on a palette, and one that a pot allows.
    private static readonly (double Paint, double Partner)[] Offered = [(1, 1), (1, 2), (1, 4), (1, 9), (1, 20), (3, 1)];
    private const int Suppositions = 6;
    private static readonly double[] Shares = [0.02, 0.1, 0.3, 0.6, 0.9];

    /// <summary>Let-downs worth making of a paint, the best first.</summary>
    /// <param name="learnt">The paints as known now.</param>
    /// <param name="paintId">The paint.</param>
    /// <param name="cancel">Stops it.</param>
    public static IReadOnlyList<Advice> For(Characterization learnt, string paintId, CancellationToken cancel = default)
    {
        // A white is told by what tints it, everything else by a white.
        var others = Partners(learnt, paintId);
        return others.Length == 0 ? [] : Among(learnt, paintId, others.SelectMany(other => Offered.Select(parts =>
            (IReadOnlyList<SwatchPart>)[new SwatchPart(paintId, parts.Paint), new SwatchPart(other, parts.Partner)])), cancel);
    }

    /// <summary>The given candidates, the best first.</summary>
    /// <param name="learnt">The paints as known now.</param>
    /// <param name="paintId">The paint that is to be known better.</param>
    /// <param name="candidates">Parts of what could be measured next.</param>
    /// <param name="cancel">Stops it.</param>
    public static IReadOnlyList<Advice> Among(Characterization learnt, string paintId, IEnumerable<IReadOnlyList<SwatchPart>> candidates, CancellationToken cancel = default)
    {
        learnt.Paint(paintId);
        var uses = Partners(learnt, paintId)
            .SelectMany(other => Shares.Select(share => (IReadOnlyList<SwatchPart>)[new SwatchPart(paintId, share), new SwatchPart(other, 1 - share)])).ToArray();
        if (uses.Length == 0)
        {
            return [];
        }

        // What a swatch would tell depends on what the paint is: ask for several that it might be.
        var suppositions = Enumerable.Range(0, Suppositions).Select(learnt.Supposing).ToArray();
        double Bound(IReadOnlyList<SwatchPart>? parts) => suppositions.AsParallel().AsOrdered().WithCancellation(cancel).Select(paints => new WhatIf(learnt, paints, parts).MeanBound(uses, cancel)).ToArray().Aggregate(1.0, (product, bound) => product * Math.Pow(bound, 1.0 / Suppositions));
        var now = Bound(null);
        return [.. candidates
            .Select(parts => new Advice(parts, now, Bound(parts), Words(learnt, parts)))
            .OrderBy(advice => advice.BoundAfter)];
    }

    // The lightest and the darkest of the others.
    private static string[] Partners(Characterization learnt, string paintId)
    {
        var others = learnt.Paints.Where(paint => paint.Kind == PaintKind.Paint && paint.Id != paintId)
            .Select(paint => (paint.Id, Prediction.LabOf(Recipe.Of(paint), new View(ViewingCondition.D65Degree10)).L))
            .OrderBy(other => other.L).ThenBy(other => other.Id, StringComparer.Ordinal).ToArray();
        return others.Length == 0 ? [] : [.. new[] { others[^1].Id, others[0].Id }.Distinct()];
    }

    private static string Words(Characterization learnt, IReadOnlyList<SwatchPart> parts) => string.Join(" + ", parts.Select(part =>
        string.Create(CultureInfo.InvariantCulture, $"{part.Parts:0.###} {(part.Parts == 1 ? "part" : "parts")} {learnt.Paint(part.PaintId).Name}")));
}
