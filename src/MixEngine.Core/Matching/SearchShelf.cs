using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// A shelf laid out for searching: the paints in the order of their ids, K and S of one drop of each, and the exact colour of any
/// candidate, equal to that of <see cref="Prediction"/> up to rounding. Allocates nothing per candidate.
/// </summary>
internal sealed class SearchShelf
{
    private readonly double[][] _k;
    private readonly double[][] _s;
    private readonly double[] _pigmented;
    private readonly View _view;
    private readonly TristimulusWeights _weights;

    public SearchShelf(IEnumerable<Paint> paints, View view)
    {
        Paints = [.. paints.OrderBy(paint => paint.Id, StringComparer.Ordinal)];
        for (var i = 1; i < Paints.Length; i++)
        {
            if (Paints[i].Id == Paints[i - 1].Id)
            {
                throw new ArgumentException($"Two paints of the shelf have the id '{Paints[i].Id}' ('{Paints[i - 1].Name}' and '{Paints[i].Name}'); each needs its own.", nameof(paints));
            }
        }

        _view = view;
        _weights = TristimulusWeights.For(view.Condition);

        // K and S of a mixture are linear in the dry volume of each part, and its colour does not depend on their scale.
        var dry = Paints.Select(DryVolumeOfDrop).ToArray();
        _k = [.. Paints.Select((paint, i) => Scaled(paint.Optics.K, dry[i]))];
        _s = [.. Paints.Select((paint, i) => Scaled(paint.Optics.S, dry[i]))];
        _pigmented = [.. Paints.Select((paint, i) => paint.Kind == PaintKind.Paint ? dry[i] : 0)];
    }

    public Paint[] Paints { get; }

    /// <summary>Absorption of one drop of the paint at a place, in any one unit.</summary>
    public ReadOnlySpan<double> K(int place) => _k[place];

    /// <summary>Scattering of one drop, in the same unit.</summary>
    public ReadOnlySpan<double> S(int place) => _s[place];

    /// <summary>Dry volume that one drop leaves, in conventional drops.</summary>
    public static double DryVolumeOfDrop(Paint paint) =>
        paint.VolumeSolids * Paint.ConventionalDropsPerMl / (paint.DropsPerMl ?? Paint.ConventionalDropsPerMl);

    /// <summary>The colour of a candidate under the view.</summary>
    public Lab ColorOf(in Candidate candidate) =>
        ColorOf([candidate.A, candidate.B, candidate.C], [candidate.DropsA, candidate.DropsB, candidate.DropsC]);

    /// <summary>The colour of any amounts, in drops, under the view. A place without drops is not looked at.</summary>
    public Lab ColorOf(ReadOnlySpan<int> places, ReadOnlySpan<double> drops)
    {
        Span<double> seen = stackalloc double[SpectralGrid.Bands];
        Reflect(places, drops, seen);
        return Lab.FromXyz(_weights.ToXyz(seen), _weights.White);
    }

    /// <summary>What leaves the surface of a candidate, per band.</summary>
    public void Reflect(in Candidate candidate, Span<double> seen) =>
        Reflect([candidate.A, candidate.B, candidate.C], [candidate.DropsA, candidate.DropsB, candidate.DropsC], seen);

    private void Reflect(ReadOnlySpan<int> places, ReadOnlySpan<double> drops, Span<double> seen)
    {
        // Add up what each part brings.
        Span<double> k = stackalloc double[SpectralGrid.Bands];
        Span<double> s = stackalloc double[SpectralGrid.Bands];
        k.Clear();
        s.Clear();
        for (var i = 0; i < places.Length; i++)
        {
            if (drops[i] > 0)
            {
                double[] ki = _k[places[i]], si = _s[places[i]];
                for (var band = 0; band < k.Length; band++)
                {
                    k[band] += drops[i] * ki[band];
                    s[band] += drops[i] * si[band];
                }
            }
        }

        // Let light in and out again.
        var surface = SurfaceOf(places, drops);
        for (var band = 0; band < seen.Length; band++)
        {
            seen[band] = Math.Clamp(surface.ToMeasured(KubelkaMunk.OpaqueReflectance(k[band], s[band])), 0, 1);
        }
    }

    /// <summary>The recipe, the larger parts first.</summary>
    public Recipe RecipeOf(Candidate candidate) => new(
        Enumerable.Range(0, candidate.Paints)
            .Select(i => new Part(Paints[candidate[i].Place], candidate[i].Drops))
            .OrderByDescending(part => part.Parts)
            .ThenBy(part => part.Paint.Id, StringComparer.Ordinal));

    // As Mixture and View do it: the mean collected share of the pigmented parts, unless another finish than theirs is asked for.
    private SurfaceReflection SurfaceOf(ReadOnlySpan<int> places, ReadOnlySpan<double> drops)
    {
        var dry = 0.0;
        var collected = 0.0;
        Finish? finish = null;
        var pigments = 0;
        for (var i = 0; i < places.Length; i++)
        {
            if (!(drops[i] > 0) || Paints[places[i]] is not { Kind: PaintKind.Paint } paint)
            {
                continue;
            }

            dry += drops[i] * _pigmented[places[i]];
            collected += drops[i] * _pigmented[places[i]] * paint.Surface.CollectedShare;
            finish = pigments == 0 || finish == paint.Finish ? paint.Finish : null;
            pigments++;
        }

        return _view.SurfaceOver(new SurfaceReflection(dry > 0 ? collected / dry : 0), finish);
    }

    private static double[] Scaled(ReadOnlySpan<double> values, double by)
    {
        var scaled = values.ToArray();
        for (var band = 0; band < scaled.Length; band++)
        {
            scaled[band] *= by;
        }

        return scaled;
    }
}
