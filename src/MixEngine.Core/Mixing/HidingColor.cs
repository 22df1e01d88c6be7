using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>The colour of one recipe in a hiding layer, and what it would be if things were otherwise.</summary>
/// <remarks>The same physics as <see cref="Mixture"/> behind a <see cref="View"/>, four bands at a time, both sides of a doubt side by side. A hiding layer shows K/S alone, so volumes need not add up to 1.</remarks>
internal sealed class HidingColor
{
    // What passes the surface both ways, as in SurfaceReflection.ToMeasured.
    private const double Passing = (1 - SurfaceReflection.External) * (1 - SurfaceReflection.Internal);

    // Colours of which three kilobytes are full.
    private const int MostOnStack = 128;

    private readonly ImmutableArray<Part> _parts;
    private readonly View _view;
    private readonly TristimulusWeights _weights;
    private readonly Finish? _finish;
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

        (_parts, _view, _weights, _finish) = (recipe.All, view, TristimulusWeights.For(view.Condition), Mixture.FinishOf(recipe));
        foreach (var part in _parts)
        {
            Add(MemoryMarshal.Cast<double, Vector256<double>>(_k.AsSpan()), part.DryVolume, part.Paint.Optics.K);
            Add(MemoryMarshal.Cast<double, Vector256<double>>(_s.AsSpan()), part.DryVolume, part.Paint.Optics.S);

            // The surface belongs to the pigmented paints.
            var pigmented = part.Paint.Kind == PaintKind.Paint ? part.DryVolume : 0;
            _pigmented += pigmented;
            _collected += pigmented * part.Paint.Surface.CollectedShare;
        }
    }

    /// <summary>The Lab alone of <see cref="Appearance"/>.</summary>
    public Lab Lab()
    {
        Span<double> seen = stackalloc double[SpectralGrid.Bands];
        Look(seen);
        return Colorimetry.Lab.FromXyz(_weights.ToXyz(seen), _weights.White);
    }

    /// <summary>What an eye sees of it as believed.</summary>
    public Appearance Appearance()
    {
        Span<double> seen = stackalloc double[SpectralGrid.Bands];
        Look(seen);
        return Core.Appearance.Of(new Reflectance(seen), _view.Condition);
    }

    /// <summary>How far the real mixture may lie from a colour that is believed.</summary>
    /// <param name="center">The colour.</param>
    /// <param name="residual">What theory leaves unexplained, as in <see cref="ExpectedError.ModelResidual"/>.</param>
    public ExpectedError Error(Lab center, double residual)
    {
        // All colours first, and their Lab together: the roots in it are found faster side by side.
        var doubts = Doubts.Of(_parts.AsSpan());
        var most = 2 * doubts.Count;
        var seen = most <= MostOnStack ? stackalloc Xyz[most] : new Xyz[most];
        var labs = most <= MostOnStack ? stackalloc Lab[most] : new Lab[most];
        Span<Vector512<double>> moved = stackalloc Vector512<double>[2 * SpectralGrid.Bands / Vector256<double>.Count];
        for (var i = 0; i < doubts.Count; i++)
        {
            (seen[2 * i], seen[2 * i + 1]) = Around(doubts[i], moved);
        }

        Colorimetry.Lab.FromXyz(seen, _weights.White, labs);
        var covariance = new LabCovariance();
        for (var i = 0; i < labs.Length; i += 2)
        {
            covariance.Add(labs[i], labs[i + 1]);
        }

        return covariance.ToExpectedError(center, residual);
    }

    /// <summary>The colours under a perturbation and under its opposite.</summary>
    public (Xyz Up, Xyz Down) Around(Perturbation doubt) => Around(doubt, stackalloc Vector512<double>[2 * SpectralGrid.Bands / Vector256<double>.Count]);

    // The perturbed stands in the lower half of each vector and the opposite in the upper.
    private (Xyz Up, Xyz Down) Around(in Perturbation doubt, Span<Vector512<double>> moved)
    {
        Span<Vector512<double>> k = moved[..(moved.Length / 2)], s = moved[k.Length..];
        Both(Fours(_k), k);
        Both(Fours(_s), s);
        var (pigmentedUp, collectedUp, pigmentedDown, collectedDown) = (_pigmented, _collected, _pigmented, _collected);
        foreach (var part in _parts)
        {
            // What is moved is taken out and put in again stronger and weaker.
            var (paint, mode, dose) = (part.Paint, doubt.ModeOf(part.Paint), doubt.DoseOf(part.Paint));
            if (mode is not null)
            {
                Move(k, part.DryVolume, paint.Optics.K, Powers(mode.FactorK, doubt.By));
                Move(s, part.DryVolume, paint.Optics.S, Powers(mode.FactorS, doubt.By));
            }
            else if (dose != 1)
            {
                var (more, less) = (part.DryVolume * (dose - 1), part.DryVolume * (1 / dose - 1));
                var amounts = Vector512.Create(Vector256.Create(more), Vector256.Create(less));
                Add(k, amounts, paint.Optics.K);
                Add(s, amounts, paint.Optics.S);
                if (paint.Kind == PaintKind.Paint)
                {
                    (pigmentedUp, collectedUp) = (pigmentedUp + more, collectedUp + more * paint.Surface.CollectedShare);
                    (pigmentedDown, collectedDown) = (pigmentedDown + less, collectedDown + less * paint.Surface.CollectedShare);
                }
            }
        }

        var glare = Vector512.Create(Vector256.Create(Glare(pigmentedUp, collectedUp)), Vector256.Create(Glare(pigmentedDown, collectedDown)));
        ReadOnlySpan<Vector256<double>> x = Fours(_weights.X), y = Fours(_weights.Y), z = Fours(_weights.Z);
        Vector512<double> sumX = default, sumY = default, sumZ = default;
        for (var i = 0; i < k.Length; i++)
        {
            var seen = Seen(k[i], s[i], glare);
            sumX += Twice(x[i]) * seen;
            sumY += Twice(y[i]) * seen;
            sumZ += Twice(z[i]) * seen;
        }

        return (
            new Xyz(Vector256.Sum(sumX.GetLower()), Vector256.Sum(sumY.GetLower()), Vector256.Sum(sumZ.GetLower())),
            new Xyz(Vector256.Sum(sumX.GetUpper()), Vector256.Sum(sumY.GetUpper()), Vector256.Sum(sumZ.GetUpper())));
    }

    private void Look(Span<double> seen)
    {
        ReadOnlySpan<Vector256<double>> k = Fours(_k), s = Fours(_s);
        var glare = Twice(Vector256.Create(Glare(_pigmented, _collected)));
        var r = MemoryMarshal.Cast<double, Vector256<double>>(seen);
        for (var i = 0; i < r.Length; i++)
        {
            r[i] = Seen(Twice(k[i]), Twice(s[i]), glare).GetLower();
        }
    }

    private double Glare(double pigmented, double collected) =>
        _view.SurfaceOver(new SurfaceReflection(collected / pigmented), _finish).CollectedShare * SurfaceReflection.External;

    // R∞ = s / sum, and behind the surface Passing·R∞ / (1 - k2·R∞) = Passing·s / (sum - k2·s). What was taken out may have left a rounding error below 0.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Seen(Vector512<double> absorption, Vector512<double> scattering, Vector512<double> glare)
    {
        var (k, s) = (Vector512.MaxNative(absorption, Vector512<double>.Zero), Vector512.MaxNative(scattering, Vector512<double>.Zero));
        var sum = k + s + Vector512.Sqrt(k * (k + s + s));
        var inside = Passing * s / (sum - SurfaceReflection.Internal * s);
        inside = Vector512.ConditionalSelect(Vector512.GreaterThan(sum, Vector512<double>.Zero), inside, Vector512<double>.Zero);
        return Vector512.MinNative(glare + inside, Vector512<double>.One);
    }

    private static void Add(Span<Vector256<double>> to, double amount, ReadOnlySpan<double> ofPaint)
    {
        var values = Fours(ofPaint);
        for (var i = 0; i < to.Length; i++)
        {
            to[i] += amount * values[i];
        }
    }

    private static void Add(Span<Vector512<double>> to, Vector512<double> amounts, ReadOnlySpan<double> ofPaint)
    {
        var values = Fours(ofPaint);
        for (var i = 0; i < to.Length; i++)
        {
            to[i] += amounts * Twice(values[i]);
        }
    }

    // Not inlined: by itself it keeps its values in registers.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void Move(Span<Vector512<double>> to, double amount, ReadOnlySpan<double> ofPaint, ReadOnlySpan<double> factors)
    {
        ReadOnlySpan<Vector256<double>> values = Fours(ofPaint), factor = Fours(factors);
        for (var i = 0; i < to.Length; i++)
        {
            var before = Twice(amount * values[i]);
            to[i] += before * Vector512.Create(factor[i], Vector256<double>.One / factor[i]) - before;
        }
    }

    // Nearly all who ask move by one standard deviation.
    private static ReadOnlySpan<double> Powers(ReadOnlySpan<double> factors, double power)
    {
        if (power == 1)
        {
            return factors;
        }

        var powers = factors.ToArray();
        foreach (ref var factor in powers.AsSpan())
        {
            factor = Math.Pow(factor, power);
        }

        return powers;
    }

    private static void Both(ReadOnlySpan<Vector256<double>> values, Span<Vector512<double>> to)
    {
        for (var i = 0; i < to.Length; i++)
        {
            to[i] = Twice(values[i]);
        }
    }

    private static Vector512<double> Twice(Vector256<double> value) => Vector512.Create(value, value);

    private static ReadOnlySpan<Vector256<double>> Fours(ReadOnlySpan<double> values) => MemoryMarshal.Cast<double, Vector256<double>>(values);
}
