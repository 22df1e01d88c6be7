using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>The Lab of one recipe in a hiding layer, to be asked under many perturbations: what they do not move is worked out once.</summary>
/// <remarks>The same physics as <see cref="Mixture"/> behind a <see cref="View"/>, four bands at a time. A hiding layer shows K/S alone, so volumes need not add up to 1.</remarks>
internal sealed class HidingColor
{
    // What passes the surface both ways, as in SurfaceReflection.ToMeasured.
    private const double Passing = (1 - SurfaceReflection.External) * (1 - SurfaceReflection.Internal);

    private readonly IReadOnlyList<Part> _parts;
    private readonly View _view;
    private readonly TristimulusWeights _weights;
    private readonly Finish? _finish;
    private readonly double[] _dry;
    private readonly double[] _k = new double[SpectralGrid.Bands];
    private readonly double[] _s = new double[SpectralGrid.Bands];
    private readonly double _pigmented;
    private readonly double _collected;

    /// <summary>Takes a recipe with pigment in it.</summary>
    /// <exception cref="ArgumentException">There is none.</exception>
    public HidingColor(Recipe recipe, View view)
    {
        if (!recipe.HasPigment)
        {
            throw new ArgumentException($"'{recipe}' has no pigment, and so no colour of its own; name at least one paint.", nameof(recipe));
        }

        (_parts, _view, _weights) = (recipe.Parts, view, TristimulusWeights.For(view.Condition));
        _dry = [.. _parts.Select(part => part.DryVolume)];
        _finish = Mixture.FinishOf(recipe);
        for (var i = 0; i < _dry.Length; i++)
        {
            var paint = _parts[i].Paint;
            Add(_k, paint.Optics.K, _dry[i]);
            Add(_s, paint.Optics.S, _dry[i]);

            // The surface belongs to the pigmented paints.
            var pigmented = paint.Kind == PaintKind.Paint ? _dry[i] : 0;
            _pigmented += pigmented;
            _collected += pigmented * paint.Surface.CollectedShare;
        }
    }

    /// <summary>The colour under a perturbation.</summary>
    public Lab Under(Perturbation perturbation)
    {
        Span<double> k = stackalloc double[SpectralGrid.Bands], s = stackalloc double[SpectralGrid.Bands];
        _k.CopyTo(k);
        _s.CopyTo(s);
        var (pigmented, collected) = (_pigmented, _collected);
        for (var i = 0; i < _dry.Length; i++)
        {
            // Only what is moved is taken out and put in again.
            var paint = _parts[i].Paint;
            var (optics, dose) = (perturbation.OpticsOf(paint), perturbation.DoseOf(paint));
            if (dose == 1 && ReferenceEquals(optics, paint.Optics))
            {
                continue;
            }

            Add(k, paint.Optics.K, -_dry[i]);
            Add(s, paint.Optics.S, -_dry[i]);
            Add(k, optics.K, _dry[i] * dose);
            Add(s, optics.S, _dry[i] * dose);
            var more = paint.Kind == PaintKind.Paint ? _dry[i] * (dose - 1) : 0;
            pigmented += more;
            collected += more * paint.Surface.CollectedShare;
        }

        return Seen(k, s, _view.SurfaceOver(new SurfaceReflection(collected / pigmented), _finish));
    }

    private Lab Seen(ReadOnlySpan<double> absorption, ReadOnlySpan<double> scattering, SurfaceReflection surface)
    {
        Span<double> seen = stackalloc double[SpectralGrid.Bands];
        var k = Fours(absorption);
        var s = Fours(scattering);
        var r = MemoryMarshal.Cast<double, Vector256<double>>(seen);
        var glare = Vector256.Create(surface.CollectedShare * SurfaceReflection.External);
        for (var i = 0; i < r.Length; i++)
        {
            // R∞ = s / sum, and behind the surface Passing·R∞ / (1 - k2·R∞) = Passing·s / (sum - k2·s). What was taken out may have left a rounding error below 0.
            var (ki, si) = (Vector256.Max(k[i], Vector256<double>.Zero), Vector256.Max(s[i], Vector256<double>.Zero));
            var sum = ki + si + Vector256.Sqrt(ki * (ki + si + si));
            var inside = Passing * si / (sum - SurfaceReflection.Internal * si);
            inside = Vector256.ConditionalSelect(Vector256.GreaterThan(sum, Vector256<double>.Zero), inside, Vector256<double>.Zero);
            r[i] = Vector256.Min(glare + inside, Vector256<double>.One);
        }

        return Lab.FromXyz(_weights.ToXyz(seen), _weights.White);
    }

    private static void Add(Span<double> to, ReadOnlySpan<double> values, double times)
    {
        var sums = MemoryMarshal.Cast<double, Vector256<double>>(to);
        var addends = Fours(values);
        for (var i = 0; i < sums.Length; i++)
        {
            sums[i] += times * addends[i];
        }
    }

    private static ReadOnlySpan<Vector256<double>> Fours(ReadOnlySpan<double> values) => MemoryMarshal.Cast<double, Vector256<double>>(values);
}
