using CsCheck;
using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests;

public class ColorChangeTests
{
    private static readonly Gen<Lab> AnyLab = Gen.Select(Gen.Double[0, 100], Gen.Double[-60, 60], Gen.Double[-60, 60]).Select((l, a, b) => new Lab(l, a, b));

    [Theory]
    [InlineData("duller")]
    [InlineData("a little duller and darker")]
    [InlineData("much warmer, a little lighter")]
    public void Words_are_understood(string words) => Assert.NotNull(ColorChange.Parse(words));

    [Theory]
    [InlineData("")]
    [InlineData("and")]
    [InlineData("greyish")]
    [InlineData("very much duller")]
    public void Other_words_are_not(string words) => Assert.Null(ColorChange.Parse(words));

    [Fact]
    public void A_measure_holds_up_to_the_next_comma()
    {
        var change = ColorChange.Parse("a little duller and darker, warmer")!;
        Assert.Equal(ColorChange.Parse("darker")!.Lightness / 2, change.Lightness);
        Assert.Equal(1, change.Warmth);
    }

    [Fact]
    public void Each_word_moves_a_colour_the_way_it_says() => AnyLab.Sample(lab =>
    {
        Assert.True(Of("lighter", lab).L >= lab.L);
        Assert.True(Of("darker", lab).L <= lab.L);
        Assert.True(Of("duller", lab).Chroma <= lab.Chroma + 1e-9);
        Assert.True(Of("brighter", lab).Chroma >= lab.Chroma - 1e-9);

        // Warmth is the way along the axis from blue to yellow-orange.
        static double Warmth(Lab c) => c.A * Math.Cos(65 * Math.PI / 180) + c.B * Math.Sin(65 * Math.PI / 180);
        Assert.True(Warmth(Of("warmer", lab)) >= Warmth(lab) - 1e-9);
        Assert.True(Warmth(Of("cooler", lab)) <= Warmth(lab) + 1e-9);
        Assert.InRange(Of("much lighter", lab).L, 0, 100);
    });

    private static Lab Of(string words, Lab lab) => ColorChange.Parse(words)!.Of(lab);
}
