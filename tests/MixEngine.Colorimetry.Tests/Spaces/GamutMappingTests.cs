using CsCheck;

namespace MixEngine.Colorimetry.Tests;

public class GamutMappingTests
{
    // The darkest code that is not black, #010101, has a lightness of 0.067.
    private static readonly Gen<OkLCh> AnyColor =
        Gen.Select(Gen.Double[0.001, 1], Gen.Double[0, 0.5], Gen.Double[0, 360], (l, c, h) => new OkLCh(l, c, h));

    [Fact]
    public void Keeps_hue_and_lightness_and_always_lands_inside() =>
        AnyColor.Sample(color =>
        {
            var mapped = GamutMapping.ToGamut(color);
            Assert.True(mapped.IsInGamut);

            var seen = OkLab.FromLinearSrgb(mapped).ToOkLCh();

            // By the ten printed digits of the OKLab matrices white is 1 - 6.5e-9 light and has 4e-8 of chroma.
            Assert.Equal(color.L, seen.L, 1e-8);
            Assert.True(seen.C <= color.C + 1e-7);

            // Near the neutral axis an angle says little, so the hue is compared as a distance.
            var hueError = Math.Sin(((seen.HueDegrees ?? color.HueDegrees!.Value) - color.HueDegrees!.Value) * Math.PI / 180) * seen.C;
            Assert.Equal(0, hueError, 1e-9);
        });

    [Fact]
    public void Goes_no_further_than_it_must() =>
        AnyColor.Where(color => color.L is > 0.01 and < 0.99 && !color.ToOkLab().ToLinearSrgb().IsInGamut).Sample(color =>
        {
            // A hair more chroma than the mapped colour has leaves the gamut.
            var mapped = OkLab.FromLinearSrgb(GamutMapping.ToGamut(color)).ToOkLCh();
            Assert.False((color with { C = mapped.C + 1e-6 }).ToOkLab().ToLinearSrgb().IsInGamut);
        });

    [Fact]
    public void Leaves_what_fits_alone() =>
        Arbitrary.Hex.Sample(hex => Assert.Equal(hex, Mapped(hex)));

    /// <summary>Pure channels lie on the very edge; rounding once made a duller blue of #000029.</summary>
    [Fact]
    public void Leaves_the_edge_of_the_gamut_alone()
    {
        for (var level = 0; level < 256; level++)
        {
            var v = (byte)level;
            HexColor[] edges = [new(v, 0, 0), new(0, v, 0), new(0, 0, v), new(v, v, 0), new(v, 0, v), new(0, v, v), new(v, 0, 255), new(0, v, 255), new(255, v, 0)];
            Assert.All(edges, hex => Assert.Equal(hex, Mapped(hex)));
        }
    }

    /// <summary>Cutting the channels of this colour, from a public fault report, would shift its lightness and hue.</summary>
    [Fact]
    public void A_light_vivid_pink_stays_as_light_and_as_pink()
    {
        var white = Arbitrary.White(ViewingCondition.Default);
        var color = new OkLCh(0.9, 0.36, 0);
        var display = DisplayColor.From(color.ToOkLab().ToXyz(white), white);
        Assert.False(display.InGamut);

        // What is left is the rounding to 8 bits.
        var shown = OkLab.FromLinearSrgb(display.Hex.ToSrgb().ToLinear()).ToOkLCh();
        Assert.Equal(0.9, shown.L, 0.002);
        Assert.Equal(0, Math.Sin(shown.HueDegrees!.Value * Math.PI / 180) * shown.C, 0.002);
    }

    [Theory]
    [InlineData(-0.5, "#000000")]
    [InlineData(0, "#000000")]
    [InlineData(1, "#ffffff")]
    [InlineData(1.5, "#ffffff")]
    public void Darker_than_black_and_lighter_than_white_end_there(double lightness, string expected) =>
        Assert.Equal(expected, GamutMapping.ToGamut(new OkLCh(lightness, 0.2, 120)).ToSrgb().ToHex().ToString());

    [Fact]
    public void A_display_colour_of_no_numbers_is_refused() =>
        Assert.Throws<ArgumentException>(() => DisplayColor.From(new Xyz(double.NaN, 1, 1), LinearSrgb.StandardWhite));

    [Fact]
    public void Any_surface_under_any_light_has_a_display_colour() =>
        Gen.Select(Arbitrary.View, Arbitrary.Reflectance).Sample((view, reflectance) =>
        {
            var weights = TristimulusWeights.For(view);
            var display = DisplayColor.From(weights.ToXyz(reflectance), weights.White);

            // The white of any light is shown as white.
            Assert.Equal(new DisplayColor(new HexColor(255, 255, 255), true), DisplayColor.From(weights.White, weights.White));
            Assert.True(HexColor.TryParse(display.Hex.ToString(), out _));
        });

    private static HexColor Mapped(HexColor hex) =>
        GamutMapping.ToGamut(OkLab.FromLinearSrgb(hex.ToSrgb().ToLinear()).ToOkLCh()).ToSrgb().ToHex();
}
