using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests.Matching;

public class LampMatchTests
{
    private static Reflectance Seen(Paint paint) => Prediction.AppearanceOf(Recipe.Of(paint), View.Default).Reflectance;

    [Fact]
    public void A_match_of_the_same_reflectance_holds_under_every_lamp()
    {
        var kelp = Seen(InventedPaints.Kelp);
        Assert.All(
            LampMatch.Of(MatchTarget.OfReflectance(kelp), kelp, ViewingCondition.Default, Illuminant.All),
            lamp => Assert.Equal((0, 0), (Math.Round(lamp.DeltaE00, 9), Math.Round(lamp.MetamerismIndex, 9))));
    }

    [Fact]
    public void The_lamp_of_the_match_has_no_metamerism_and_another_has()
    {
        var target = MatchTarget.OfReflectance(Seen(InventedPaints.TidePool));
        var other = Prediction.AppearanceOf(new Recipe([new Part(InventedPaints.Kelp, 1), new Part(InventedPaints.GullWhite, 3)]), View.Default).Reflectance;
        var lamps = LampMatch.Of(target, other, ViewingCondition.Default, [Illuminant.D65, Illuminant.A, Illuminant.FL11]);
        Assert.Equal(0, lamps[0].MetamerismIndex, 1e-6);
        Assert.True(lamps[0].DeltaE00 > 1);
        Assert.True(lamps[1].MetamerismIndex > 0.1);
    }

    [Fact]
    public void A_measured_lamp_is_a_lamp()
    {
        // A narrow lamp of three lines in the blue, green and red.
        double[] nm = [.. Enumerable.Range(0, 71).Select(i => 380.0 + 5 * i)];
        double[] power = [.. nm.Select(at => Math.Exp(-Math.Pow((at - 455) / 10, 2)) + Math.Exp(-Math.Pow((at - 540) / 10, 2)) + Math.Exp(-Math.Pow((at - 610) / 10, 2)))];
        var lamp = Illuminant.FromSpectrum("desk lamp", nm, power);
        var look = LampLook.Of(Seen(InventedPaints.BuoyYellow), ViewingCondition.Default, lamp);
        Assert.Same(lamp, look.Appearance.Condition.Illuminant);
        Assert.True(look.ShiftDeltaE00 > 1);
        Assert.Equal(look.ShiftDeltaE00, look.Shift.DeltaE00);
    }
}
