using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// A shelf laid out for searching: the paints in the order of their ids, K and S of one drop of each, what is already on the palette, and
/// the exact colour of any candidate, equal to that of <see cref="Prediction"/> up to rounding. Allocates nothing per candidate.
/// </summary>
internal sealed class SearchShelf
{
    private readonly double[][] _k;
    private readonly double[][] _s;
    private readonly double[] _pigmented;
    private readonly View _view;
    private readonly TristimulusWeights _weights;

    public SearchShelf(IEnumerable<Paint> paints, View view, Recipe? start = null)
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

        // What is on the palette adds the same to every candidate.
        Start = start;
        StartK = new double[SpectralGrid.Bands];
        StartS = new double[SpectralGrid.Bands];
        foreach (var part in start?.Parts ?? [])
        {
            var volume = part.Parts * DryVolumeOfDrop(part.Paint);
            for (var band = 0; band < StartK.Length; band++)
            {
                StartK[band] += volume * part.Paint.Optics.K[band];
                StartS[band] += volume * part.Paint.Optics.S[band];
            }

            if (part.Paint.Kind == PaintKind.Paint)
            {
                StartPigmented += volume;
                StartCollected += volume * part.Paint.Surface.CollectedShare;
            }
        }
    }

    /// <summary>The paints that a candidate may add.</summary>
    public Paint[] Paints { get; }

    /// <summary>What is already on the palette.</summary>
    public Recipe? Start { get; }

    /// <summary>Absorption of what is on the palette.</summary>
    public double[] StartK { get; }

    /// <summary>Scattering of what is on the palette.</summary>
    public double[] StartS { get; }

    /// <summary>Dry volume of the pigmented paints on the palette, in conventional drops.</summary>
    public double StartPigmented { get; }

    /// <summary>The same times their collected shares.</summary>
    public double StartCollected { get; }

    /// <summary>Absorption of one drop of the paint at a place, in any one unit.</summary>
    public ReadOnlySpan<double> K(int place) => _k[place];

    /// <summary>Scattering of one drop, in the same unit.</summary>
    public ReadOnlySpan<double> S(int place) => _s[place];

    /// <summary>Dry volume of one drop where it is pigmented, in conventional drops; 0 for a medium.</summary>
    public double Pigmented(int place) => _pigmented[place];

    /// <summary>Dry volume that one drop leaves, in conventional drops.</summary>
    public static double DryVolumeOfDrop(Paint paint) =>
        paint.VolumeSolids * Paint.ConventionalDropsPerMl / (paint.DropsPerMl ?? Paint.ConventionalDropsPerMl);

    /// <summary>The colour of a candidate under the view.</summary>
    public Lab ColorOf(in Candidate candidate)
    {
        Span<double> seen = stackalloc double[SpectralGrid.Bands];
        Reflect(candidate, seen);
        return Lab.FromXyz(_weights.ToXyz(seen), _weights.White);
    }

    /// <summary>What leaves the surface of a candidate, per band.</summary>
    public void Reflect(in Candidate candidate, Span<double> seen) =>
        Reflect([candidate.A, candidate.B, candidate.C], [candidate.DropsA, candidate.DropsB, candidate.DropsC], seen);

    /// <summary>What leaves the surface of any amounts, in drops, added to what is on the palette. A place without drops is not looked at.</summary>
    public void Reflect(ReadOnlySpan<int> places, ReadOnlySpan<double> drops, Span<double> seen)
    {
        // Add up what each part brings.
        Span<double> k = stackalloc double[SpectralGrid.Bands];
        Span<double> s = stackalloc double[SpectralGrid.Bands];
        StartK.CopyTo(k);
        StartS.CopyTo(s);
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

    /// <summary>The whole recipe, what is on the palette included, the larger parts first.</summary>
    public Recipe RecipeOf(IEnumerable<(int Place, double Drops)> added) => new(
        (Start?.Parts ?? [])
            .Concat(added.Where(part => part.Drops > 0).Select(part => new Part(Paints[part.Place], part.Drops)))
            .GroupBy(part => part.Paint.Id)
            .Select(same => new Part(same.First().Paint, same.Sum(part => part.Parts)))
            .OrderByDescending(part => part.Parts)
            .ThenBy(part => part.Paint.Id, StringComparer.Ordinal));

    /// <summary>The whole recipe of a candidate.</summary>
    public Recipe RecipeOf(Candidate candidate) =>
        RecipeOf(Enumerable.Range(0, candidate.Paints).Select(i => (candidate[i].Place, (double)candidate[i].Drops)));

    // As Mixture and View do it: the mean collected share of the pigmented parts, unless another finish than theirs is asked for.
    private SurfaceReflection SurfaceOf(ReadOnlySpan<int> places, ReadOnlySpan<double> drops)
    {
        var (dry, collected) = (StartPigmented, StartCollected);
        var finish = default(Finish?);
        var first = true;
        foreach (var part in Start?.Parts ?? [])
        {
            Join(part.Paint, ref finish, ref first);
        }

        for (var i = 0; i < places.Length; i++)
        {
            if (drops[i] > 0)
            {
                var paint = Paints[places[i]];
                dry += drops[i] * _pigmented[places[i]];
                collected += drops[i] * _pigmented[places[i]] * paint.Surface.CollectedShare;
                Join(paint, ref finish, ref first);
            }
        }

        return _view.SurfaceOver(new SurfaceReflection(dry > 0 ? collected / dry : 0), finish);
    }

    // A finish in common, as long as every pigmented paint states the same one.
    private static void Join(Paint paint, ref Finish? common, ref bool first)
    {
        if (paint.Kind == PaintKind.Paint)
        {
            common = first || common == paint.Finish ? paint.Finish : null;
            first = false;
        }
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
