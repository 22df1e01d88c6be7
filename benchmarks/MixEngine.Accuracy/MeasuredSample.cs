using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Accuracy;

/// <summary>One film of known parts, read over a black and a white card, and the bare cards.</summary>
internal sealed record MeasuredSample(
    string Id, IReadOnlyList<SwatchPart> Parts, MeasuredColor OverBlack, MeasuredColor OverWhite, MeasuredColor Black, MeasuredColor White)
{
    // Only ratios of readings matter much; the share of the surface reflection in them is not stated.
    private static readonly SurfaceReflection Surface = new(0.75);

    /// <summary>Whether it is one paint alone.</summary>
    public bool IsMasstone => Parts.Count == 1;

    /// <summary>What the paint would look like in a layer that hides, from the two readings of its film [Kubelka1948].</summary>
    /// <remarks>
    /// a = 1 + K/S = ((1 + Rw·Rb)(Gw - Gb) - (1 + Gw·Gb)(Rw - Rb)) / (2(Rb·Gw - Rw·Gb)) and R∞ = a - √(a² - 1): where both readings agree it is that reading.
    /// </remarks>
    public Reflectance Hiding()
    {
        var hiding = new double[SpectralGrid.Bands];
        for (var band = 0; band < hiding.Length; band++)
        {
            double Inside(MeasuredColor color) => Surface.ToInternal(color.Spectrum![band]);
            var (rb, rw, gb, gw) = (Inside(OverBlack), Inside(OverWhite), Inside(Black), Inside(White));
            var a = ((1 + rw * rb) * (gw - gb) - (1 + gw * gb) * (rw - rb)) / (2 * (rb * gw - rw * gb));
            var b = Math.Sqrt(Math.Max(0, a * a - 1));
            hiding[band] = Math.Clamp(Surface.ToMeasured(1 / (Math.Max(a, 1) + b)), 0, 1);
        }

        return new Reflectance(hiding);
    }

    /// <summary>The two films as swatches.</summary>
    public IEnumerable<Swatch> Films() => [Film("b", OverBlack, Black), Film("w", OverWhite, White)];

    /// <summary>The colour of a hiding layer alone, as if no more had been noted down.</summary>
    public Swatch ColorOnly() => new()
    {
        Id = Id,
        Parts = Parts,
        Color = MeasuredColor.Of(HidingLab(), ViewingCondition.D65Degree10),
        Dosing = Dosing.Weighed,
    };

    /// <summary>The colour of a hiding layer under D65 for the 10-degree observer.</summary>
    public Lab HidingLab() => MeasuredColor.Of(Hiding()).LabUnder(ViewingCondition.D65Degree10);

    private Swatch Film(string suffix, MeasuredColor color, MeasuredColor ground) => new()
    {
        Id = Id + suffix,
        FilmId = Id,
        Parts = Parts,
        Color = color,
        Backing = ground,
        Dosing = Dosing.Weighed,
    };
}
