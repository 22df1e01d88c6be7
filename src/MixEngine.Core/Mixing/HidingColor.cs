using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>The colour of one recipe in a hiding layer, and what it would be if things were otherwise.</summary>
/// <remarks>The same physics as <see cref="Mixture"/> behind a <see cref="View"/>, four bands at a time. A hiding layer shows K/S alone, so volumes need not add up to 1.</remarks>
internal sealed class HidingColor
{
    // What passes the surface both ways, as in SurfaceReflection.ToMeasured.
    private const double Passing = (1 - SurfaceReflection.External) * (1 - SurfaceReflection.Internal);

    // Colours of which three kilobytes are full.
    private const int MostOnStack = 128;

    private readonly Part[] _parts;
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

        (_parts, _view, _weights, _finish) = ([.. recipe.Parts], view, TristimulusWeights.For(view.Condition), Mixture.FinishOf(recipe));
        foreach (var part in _parts)
        {
            Add(Fours(_k), MemoryMarshal.Cast<double, Vector256<double>>(_k.AsSpan()), part.DryVolume, part.Paint.Optics.K);
            Add(Fours(_s), MemoryMarshal.Cast<double, Vector256<double>>(_s.AsSpan()), part.DryVolume, part.Paint.Optics.S);

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
        var doubts = Doubts.Of(_parts);
        var most = 2 * doubts.Count;
        var seen = most <= MostOnStack ? stackalloc Xyz[most] : new Xyz[most];
        var labs = most <= MostOnStack ? stackalloc Lab[most] : new Lab[most];
        Span<Vector256<double>> sums = stackalloc Vector256<double>[4 * SpectralGrid.Bands / Vector256<double>.Count];
        for (var i = 0; i < doubts.Count; i++)
        {
            (seen[2 * i], seen[2 * i + 1]) = Around(doubts[i], sums);
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
    public (Xyz Up, Xyz Down) Around(Perturbation doubt) => Around(doubt, stackalloc Vector256<double>[4 * SpectralGrid.Bands / Vector256<double>.Count]);

    private (Xyz Up, Xyz Down) Around(in Perturbation doubt, Span<Vector256<double>> sums)
    {
        ReadOnlySpan<Vector256<double>> k = Fours(_k), s = Fours(_s);
        Span<Vector256<double>> kUp = sums[..k.Length], sUp = sums.Slice(k.Length, k.Length), kDown = sums.Slice(2 * k.Length, k.Length), sDown = sums.Slice(3 * k.Length, k.Length);
        var isMoved = false;
        var (pigmentedUp, collectedUp, pigmentedDown, collectedDown) = (_pigmented, _collected, _pigmented, _collected);
        foreach (var part in _parts)
        {
            var (paint, mode, dose) = (part.Paint, doubt.ModeOf(part.Paint), doubt.DoseOf(part.Paint));
            if (mode is null && dose == 1)
            {
                continue;
            }

            // What is moved is taken out and put in again stronger and weaker: the first out of what is believed, others out of what is moved already.
            ReadOnlySpan<Vector256<double>> kFromUp = isMoved ? kUp : k, kFromDown = isMoved ? kDown : k, sFromUp = isMoved ? sUp : s, sFromDown = isMoved ? sDown : s;
            if (mode is not null)
            {
                Move(kFromUp, kFromDown, kUp, kDown, part.DryVolume, paint.Optics.K, mode.FactorK, doubt.By);
                Move(sFromUp, sFromDown, sUp, sDown, part.DryVolume, paint.Optics.S, mode.FactorS, doubt.By);
            }
            else
            {
                var (more, less) = (part.DryVolume * (dose - 1), part.DryVolume * (1 / dose - 1));
                Add(kFromUp, kUp, more, paint.Optics.K);
                Add(sFromUp, sUp, more, paint.Optics.S);
                Add(kFromDown, kDown, less, paint.Optics.K);
                Add(sFromDown, sDown, less, paint.Optics.S);
                if (paint.Kind == PaintKind.Paint)
                {
                    (pigmentedUp, collectedUp) = (pigmentedUp + more, collectedUp + more * paint.Surface.CollectedShare);
                    (pigmentedDown, collectedDown) = (pigmentedDown + less, collectedDown + less * paint.Surface.CollectedShare);
                }
            }

            isMoved = true;
        }

        if (!isMoved)
        {
            k.CopyTo(kUp);
            s.CopyTo(sUp);
            k.CopyTo(kDown);
            s.CopyTo(sDown);
        }

        var (glareUp, glareDown) = (Glare(pigmentedUp, collectedUp), Glare(pigmentedDown, collectedDown));
        ReadOnlySpan<Vector256<double>> x = Fours(_weights.X), y = Fours(_weights.Y), z = Fours(_weights.Z);
        Vector256<double> xUp = default, yUp = default, zUp = default, xDown = default, yDown = default, zDown = default;
        for (var i = 0; i < kUp.Length; i++)
        {
            var (seenUp, seenDown) = (Seen(kUp[i], sUp[i], glareUp), Seen(kDown[i], sDown[i], glareDown));
            xUp += x[i] * seenUp;
            yUp += y[i] * seenUp;
            zUp += z[i] * seenUp;
            xDown += x[i] * seenDown;
            yDown += y[i] * seenDown;
            zDown += z[i] * seenDown;
        }

        return (
            new Xyz(Vector256.Sum(xUp), Vector256.Sum(yUp), Vector256.Sum(zUp)),
            new Xyz(Vector256.Sum(xDown), Vector256.Sum(yDown), Vector256.Sum(zDown)));
    }

    private void Look(Span<double> seen)
    {
        ReadOnlySpan<Vector256<double>> k = Fours(_k), s = Fours(_s);
        var glare = Glare(_pigmented, _collected);
        var r = MemoryMarshal.Cast<double, Vector256<double>>(seen);
        for (var i = 0; i < r.Length; i++)
        {
            r[i] = Seen(k[i], s[i], glare);
        }
    }

    private Vector256<double> Glare(double pigmented, double collected) =>
        Vector256.Create(_view.SurfaceOver(new SurfaceReflection(collected / pigmented), _finish).CollectedShare * SurfaceReflection.External);

    // R∞ = s / sum, and behind the surface Passing·R∞ / (1 - k2·R∞) = Passing·s / (sum - k2·s). What was taken out may have left a rounding error below 0.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Seen(Vector256<double> absorption, Vector256<double> scattering, Vector256<double> glare)
    {
        var (k, s) = (Vector256.MaxNative(absorption, Vector256<double>.Zero), Vector256.MaxNative(scattering, Vector256<double>.Zero));
        var sum = k + s + Vector256.Sqrt(k * (k + s + s));
        var inside = Passing * s / (sum - SurfaceReflection.Internal * s);
        inside = Vector256.ConditionalSelect(Vector256.GreaterThan(sum, Vector256<double>.Zero), inside, Vector256<double>.Zero);
        return Vector256.MinNative(glare + inside, Vector256<double>.One);
    }

    private static void Add(ReadOnlySpan<Vector256<double>> from, Span<Vector256<double>> to, double amount, ReadOnlySpan<double> ofPaint)
    {
        var values = Fours(ofPaint);
        for (var i = 0; i < to.Length; i++)
        {
            to[i] = from[i] + amount * values[i];
        }
    }

    private static void Move(
        ReadOnlySpan<Vector256<double>> fromUp, ReadOnlySpan<Vector256<double>> fromDown, Span<Vector256<double>> up, Span<Vector256<double>> down,
        double amount, ReadOnlySpan<double> ofPaint, ReadOnlySpan<double> factors, double power)
    {
        ReadOnlySpan<Vector256<double>> values = Fours(ofPaint), factor = Fours(factors);
        for (var i = 0; i < up.Length; i++)
        {
            var before = amount * values[i];
            var by = power == 1 ? factor[i] : Vector256.Exp(power * Vector256.Log(factor[i]));
            up[i] = fromUp[i] + (before * by - before);
            down[i] = fromDown[i] + (before / by - before);
        }
    }

    private static ReadOnlySpan<Vector256<double>> Fours(ReadOnlySpan<double> values) => MemoryMarshal.Cast<double, Vector256<double>>(values);
}
