using CsCheck;
using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests.Paints;

public class ColorGradeTests
{
    [Fact]
    public void Paint_alone_has_the_colour_it_was_given_or_says_what_was_bent() =>
        Gen.Select(Gen.Byte, Gen.Byte, Gen.Byte).Sample((r, g, b) =>
        {
            var hex = $"#{r:x2}{g:x2}{b:x2}";
            var paint = InventedPaints.Of("any", hex);
            var shown = Prediction.AppearanceOf(Recipe.Of(paint), View.Default).Lab;
            var given = Lab.FromXyz(HexColor.Parse(hex).ToXyz(), TristimulusWeights.For(ViewingCondition.Default).White);
            Assert.True(DeltaE2000.Between(shown, given) < 0.1 || paint.Remarks.Count > 0, $"{hex}: {DeltaE2000.Between(shown, given)}");
        }, iter: 300);

    [Theory]
    [InlineData("#ffffff", "Brighter")]
    [InlineData("#000000", "Darker")]
    public void Perfect_white_and_black_are_taken_as_the_nearest_paint_and_said_so(string hex, string word)
    {
        var paint = InventedPaints.Of("extreme", hex);
        Assert.Contains(paint.Remarks, remark => remark.StartsWith(word, StringComparison.Ordinal));
        Assert.All(paint.Optics.K.ToArray(), k => Assert.True(double.IsFinite(k) && k > 0));
    }

    [Fact]
    public void Black_read_as_matt_yet_darker_than_its_surface_lowers_the_collected_share_and_says_so()
    {
        var paint = ColorGrade.Characterize(
            new Paint { Id = "x", Name = "x", Finish = Finish.Matt, Optics = AbsorptionScattering.Clear, Grade = Grade.Color },
            HexColor.Parse("#121212").ToXyz(), ViewingCondition.Default, ColorGrade.HexReading);
        Assert.InRange(paint.Surface.CollectedShare, 0, 0.5);
        Assert.Contains(paint.Remarks, remark => remark.Contains("surface", StringComparison.Ordinal));
        var shown = Prediction.AppearanceOf(Recipe.Of(paint), View.Default).Lab;
        Assert.InRange(DeltaE2000.Between(shown, Lab.FromXyz(HexColor.Parse("#121212").ToXyz(), TristimulusWeights.For(ViewingCondition.Default).White)), 0, 0.1);
    }

    [Fact]
    public void Asking_for_the_finish_it_was_measured_in_changes_nothing_and_gloss_deepens_a_matt_paint()
    {
        var paint = ColorGrade.Characterize(
            new Paint { Id = "x", Name = "x", Finish = Finish.Matt, Optics = AbsorptionScattering.Clear, Grade = Grade.Color },
            HexColor.Parse("#5a4a3a").ToXyz(), ViewingCondition.Default, ColorGrade.HexReading);
        Lab Seen(Finish? finish) => Prediction.AppearanceOf(Recipe.Of(paint), View.Default with { Finish = finish }).Lab;
        Assert.Equal(Seen(null), Seen(Finish.Matt));
        Assert.True(Seen(Finish.Gloss).L < Seen(Finish.Satin).L && Seen(Finish.Satin).L < Seen(Finish.Matt).L);
        Assert.True(Seen(Finish.Gloss).Chroma > Seen(Finish.Matt).Chroma);
    }

    [Fact]
    public void Opaque_white_scatters_most_and_transparent_dark_least()
    {
        static double S(string hex, OpacityWord word) => InventedPaints.Of("x", hex, word).Optics.S[0];
        Assert.True(S("#f4f3ee", OpacityWord.Opaque) > S("#8a6a4d", OpacityWord.Opaque));
        Assert.True(S("#8a6a4d", OpacityWord.Opaque) > S("#1b1a1c", OpacityWord.Opaque));
        Assert.Equal(Enum.GetValues<OpacityWord>().Select(word => S("#8a6a4d", word)).OrderDescending(), Enum.GetValues<OpacityWord>().Select(word => S("#8a6a4d", word)));
    }
}
