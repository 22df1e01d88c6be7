using System.Globalization;
using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.RefitSpeed;

/// <summary>
/// A shelf of invented paints and what was measured of them; the same on every run. Each paint was drawn over black and over white and let down four times
/// with the white; the remaining swatches are of whatever two or three paints were stirred together.
/// </summary>
internal sealed class InventedShelf
{
    private readonly Random _random = new(7);
    private readonly Paint[] _truth;

    public InventedShelf(int paints, int swatches)
    {
        _truth = [.. Enumerable.Range(0, paints).Select(PaintOf)];
        Paints = [.. _truth.Select(paint => paint with { Optics = AbsorptionScattering.Clear })];
        Swatches = [.. Enumerable.Range(0, swatches).Select(SwatchOf)];
    }

    /// <summary>The paints as entered: names without any knowledge.</summary>
    public Paint[] Paints { get; }

    /// <summary>What was measured of them.</summary>
    public Swatch[] Swatches { get; }

    // Smooth curves; the first paint is a white.
    private Paint PaintOf(int i)
    {
        var (level, centre, width, depth) = (0.5 * Math.Pow(10, -1.2 * _random.NextDouble()), 380 + 350 * _random.NextDouble(), 30 + 60 * _random.NextDouble(), Math.Pow(10, 2 * _random.NextDouble() - 1));
        double[] k = new double[SpectralGrid.Bands], s = new double[SpectralGrid.Bands];
        for (var band = 0; band < k.Length; band++)
        {
            var away = (SpectralGrid.WavelengthNm(band) - centre) / width;
            s[band] = i == 0 ? 0.4 : 0.8 * level;
            k[band] = i == 0 ? 0.0005 : s[band] * (0.01 + depth * Math.Exp(-0.5 * away * away));
        }

        var id = $"pebble-{i:000}";
        return new Paint { Id = id, Name = id, Optics = new AbsorptionScattering(k, s), Grade = Grade.None, DropsPerMl = Paint.ConventionalDropsPerMl };
    }

    private Swatch SwatchOf(int i)
    {
        // Two films of each paint alone, four let-downs, and the rest mixtures.
        if (i < 2 * _truth.Length)
        {
            return Of(i, [new SwatchPart(_truth[i / 2].Id, 1)], i % 2 == 0 ? 0.02 : 0.85);
        }

        string Any() => _truth[_random.Next(_truth.Length)].Id;
        string[] ids = i < 6 * _truth.Length
            ? [_truth[1 + i % (_truth.Length - 1)].Id, _truth[0].Id]
            : [.. Enumerable.Range(0, 2 + _random.Next(2)).Select(_ => Any()).Distinct()];
        return Of(i, [.. ids.Select(id => new SwatchPart(id, 1 + _random.Next(id == _truth[0].Id ? 9 : 3)))], null);
    }

    private Swatch Of(int i, SwatchPart[] parts, double? ground)
    {
        var mixture = Mixture.Of(new Recipe(parts.Select(part => new Part(_truth.First(paint => paint.Id == part.PaintId), part.Parts))));
        var inside = mixture.OpaqueInternal();
        var read = new double[SpectralGrid.Bands];
        var surface = new SurfaceReflection(0);
        for (var band = 0; band < read.Length; band++)
        {
            var r = ground is { } g
                ? KubelkaMunk.FilmOver(mixture.Optics.K[band], mixture.Optics.S[band], 40, surface.ToInternal(g))
                : inside[band];
            read[band] = Math.Clamp(surface.ToMeasured(r) * (1 + 0.01 * (_random.NextDouble() - 0.5)), 0, 1);
        }

        return new Swatch
        {
            Id = i.ToString("0000", CultureInfo.InvariantCulture),
            Parts = parts,
            Color = MeasuredColor.Of(new Reflectance(read)),
            Backing = ground is { } bare ? MeasuredColor.Of(new Reflectance([.. Enumerable.Repeat(bare, SpectralGrid.Bands)])) : null,
            FilmId = ground is null ? null : "film " + parts[0].PaintId,
            Dosing = Dosing.Weighed,
            Specular = SpecularMode.Excluded,
        };
    }
}
