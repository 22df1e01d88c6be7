using System.Collections.Immutable;
using System.Globalization;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// The weakest grade of evidence: one colour of the dried paint and the maker's word for its opacity.
/// </summary>
/// <remarks>
/// The smoothest reflectance with that colour [Burns2020] gives K/S through the surface [Saunderson1942] and the hiding-film
/// equation [KubelkaMunk1931]; S comes from the <see cref="ScatteringPrior"/>, K from both.
/// </remarks>
public static class ColorGrade
{
    /// <summary>Standard deviation of ln(K/S) of a hex code, for its level, slope and bow over the spectrum each: about 2 to 3 CIEDE2000 (assumption: hex codes come from photographs and web pages).</summary>
    public const double HexReading = 0.15;

    /// <summary>The same of a Lab reading: about 1 CIEDE2000.</summary>
    public const double LabReading = 0.05;

    /// <summary>Characterises a paint by its colour.</summary>
    /// <param name="paint">The paint with its descriptive properties; its optics, surface, grade, uncertainty and remarks are replaced.</param>
    /// <param name="color">Its dried colour in a hiding layer, specular excluded unless a finish is stated.</param>
    /// <param name="condition">Light and eye under which the colour holds.</param>
    /// <param name="reading">Standard deviation of the reading, <see cref="HexReading"/> or <see cref="LabReading"/>.</param>
    public static Paint Characterize(Paint paint, Xyz color, ViewingCondition condition, double reading)
    {
        var remarks = new List<string>(paint.Remarks);
        var lab = Lab.FromXyz(color, TristimulusWeights.For(condition).White);

        // The smoothest reflectance that has the colour, or the nearest that any surface can have.
        var reconstructed = ReflectanceFromColor.Reconstruct(color, condition);
        if (!reconstructed.Exact)
        {
            remarks.Add(Text($"No surface can have this colour; the nearest was taken, {reconstructed.DeltaE00:0.0} dE00 away."));
        }

        // Through the surface: where the stated finish would reflect more than was read, less of it was seen.
        var measured = reconstructed.Reflectance;
        var surface = (paint.Finish ?? Finish.Gloss).Surface();
        var darkest = measured.Values.ToArray().Min();
        var most = darkest / SurfaceReflection.External;
        if (surface.CollectedShare > most)
        {
            surface = new SurfaceReflection(Math.Max(0, most * 0.9));
            remarks.Add(Text($"Darker than a {paint.Finish!.Value.ToString().ToLowerInvariant()} surface alone would look: its reading was taken to leave out part of the surface reflection."));
        }

        var optics = Optics(measured, surface, ScatteringPrior.Scattering(lab, paint.Opacity));

        // No pigment is a perfect white or a perfect black: say so where that moved the colour.
        var shown = Shown(optics, surface, condition);
        var moved = DeltaE2000.Between(shown, Lab.FromXyz(reconstructed.Achieved, TristimulusWeights.For(condition).White));
        if (moved > 0.05)
        {
            remarks.Add(Text($"{(lab.L > 50 ? "Brighter" : "Darker")} than a dried paint film can be; taken as Lab {shown.L:0.0}, {shown.A:0.0}, {shown.B:0.0}, {moved:0.0} dE00 away."));
        }

        return paint with
        {
            Optics = optics,
            Surface = surface,
            Grade = Grade.Color,
            Uncertainty = Modes(paint.Id, reading),
            Remarks = remarks,
        };
    }

    private static Lab Shown(AbsorptionScattering optics, SurfaceReflection surface, ViewingCondition condition)
    {
        Span<double> seen = stackalloc double[SpectralGrid.Bands];
        for (var band = 0; band < seen.Length; band++)
        {
            seen[band] = surface.ToMeasured(KubelkaMunk.OpaqueReflectance(optics.K[band], optics.S[band]));
        }

        var weights = TristimulusWeights.For(condition);
        return Lab.FromXyz(weights.ToXyz(seen), weights.White);
    }

    /// <summary>K and S of a hiding film of this measured reflectance, for one S in all bands.</summary>
    private static AbsorptionScattering Optics(Reflectance measured, SurfaceReflection surface, double scattering)
    {
        var k = new double[SpectralGrid.Bands];
        var s = new double[SpectralGrid.Bands];
        for (var band = 0; band < k.Length; band++)
        {
            var inside = Math.Clamp(surface.ToInternal(measured[band]), SurfaceReflection.DarkestInternal, SurfaceReflection.BrightestInternal);
            s[band] = scattering;
            k[band] = scattering * KubelkaMunk.AbsorptionToScattering(inside);
        }

        return new AbsorptionScattering(k, s);
    }

    // Six independent ways to be wrong: tinting strength (level of S at the same masstone), slope and bow of S, and level, slope and bow of the reading.
    private static ImmutableArray<UncertaintyMode> Modes(string paintId, double reading)
    {
        UncertaintyMode Mode(string name, Func<double, double> logK, Func<double, double> logS)
        {
            var k = new double[SpectralGrid.Bands];
            var s = new double[SpectralGrid.Bands];
            for (var band = 0; band < k.Length; band++)
            {
                // -1 at the violet end, 1 at the red end.
                var x = 2.0 * band / (SpectralGrid.Bands - 1) - 1;
                (k[band], s[band]) = (logK(x), logS(x));
            }

            return new UncertaintyMode(ModeKey.Of(paintId, name), k, s);
        }

        static double Bow(double x) => 1.5 * x * x - 0.5;
        const double level = ScatteringPrior.StandardDeviation;
        const double shape = ScatteringPrior.ShapeDeviation;
        return
        [
            Mode("strength", _ => level, _ => level),
            Mode("strength-slope", x => shape * x, x => shape * x),
            Mode("strength-bow", x => shape * Bow(x), x => shape * Bow(x)),
            Mode("reading", _ => reading, _ => 0),
            Mode("reading-slope", x => reading * x, _ => 0),
            Mode("reading-bow", x => reading * Bow(x), _ => 0),
        ];
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
