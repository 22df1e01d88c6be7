using CsCheck;
using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests.Ramps;

public class RampLookTests
{
    private static readonly Recipe[] Ramp =
        [.. EvenRamp.Through([Recipe.Of(InventedPaints.TarredRope), Recipe.Of(InventedPaints.Kelp), Recipe.Of(InventedPaints.SeaLettuce)], View.Default, new RampOptions { Steps = 8, Drops = 16 })
            .Steps.Select(step => step.Prediction.Recipe)];

    [Fact]
    public void A_matt_varnish_closes_the_dark_steps_and_it_is_said_which()
    {
        var look = RampLook.InFinish(Ramp, View.Default, Finish.Matt);
        Assert.Equal(8, look.Steps.Count);
        Assert.True(look.Steps[1].StepDeltaE00 < look.Steps[1].StepBeforeDeltaE00);
        Assert.All(look.Steps, step => Assert.True(step.After.Lab.L > step.Before.Lab.L));
        Assert.Contains(look.Remarks, remark => remark.StartsWith("Steps 1 and 2 ", StringComparison.Ordinal));

        // The varnish in which it was measured does nothing.
        var gloss = RampLook.InFinish(Ramp, View.Default, Finish.Gloss);
        Assert.Empty(gloss.Remarks);
        Assert.All(gloss.Steps, step => Assert.Equal(0, step.ShiftDeltaE00, 1e-9));
    }

    [Fact]
    public void Gloss_deepens_and_matt_lifts_a_recipe_alone() =>
        InventedPaints.Any.Sample(paint =>
        {
            double In(Finish finish) => Assert.Single(RampLook.InFinish([Recipe.Of(paint)], View.Default, finish).Steps).After.Lab.L;
            Assert.True(In(Finish.Gloss) <= In(Finish.Satin) + 1e-9);
            Assert.True(In(Finish.Satin) <= In(Finish.Matt) + 1e-9);

            // The colour was read without the surface's reflection, as gloss shows it.
            Assert.Equal(0, RampLook.InFinish([Recipe.Of(paint)], View.Default, Finish.Gloss).Steps[0].ShiftDeltaE00, 1e-9);
        }, iter: 30);

    [Fact]
    public void A_black_moves_far_and_a_white_hardly()
    {
        // Up to about 20 CIEDE2000 between gloss and matt (Berns and de la Rie 2003, abstract).
        double Matt(Paint paint) => RampLook.InFinish([Recipe.Of(paint)], View.Default, Finish.Matt).Steps[0].ShiftDeltaE00;
        Assert.InRange(Matt(InventedPaints.TarredRope), 8, 25);
        Assert.InRange(Matt(InventedPaints.GullWhite), 0, 2);

        // The finish in which a paint was measured changes nothing.
        var matt = InventedPaints.Driftwood with { Finish = Finish.Matt, Surface = Finish.Matt.Surface() };
        Assert.Equal(0, Matt(matt), 1e-9);
    }

    [Fact]
    public void A_gloss_varnish_over_matt_paints_opens_the_dark_steps()
    {
        // Read matt: their blacks are no darker than the surface that was read with them.
        Recipe[] greys = [.. new[] { "#3a3a3a", "#404040", "#606060", "#909090" }.Select((hex, i) => Recipe.Of(MattRead($"tide {i}", hex)))];
        var look = RampLook.InFinish(greys, View.Default, Finish.Gloss);
        Assert.True(look.Steps[1].StepDeltaE00 > look.Steps[1].StepBeforeDeltaE00);
        Assert.Contains(look.Remarks, remark => remark.Contains("open up", StringComparison.Ordinal));
    }

    private static Paint MattRead(string name, string hex) => ColorGrade.Characterize(
        new Paint { Id = name, Name = name, Opacity = OpacityWord.Opaque, Finish = Finish.Matt, Optics = AbsorptionScattering.Clear, Grade = Grade.Color },
        HexColor.Parse(hex).ToXyz(), ViewingCondition.Default, ColorGrade.HexReading);

    [Fact]
    public void Under_its_own_lamp_nothing_moves_and_under_another_something_does()
    {
        Assert.All(RampLook.UnderLamp(Ramp, View.Default, Illuminant.D65).Steps, step => Assert.Equal(0, step.ShiftDeltaE00, 1e-9));
        var warm = RampLook.UnderLamp(Ramp, View.Default, Illuminant.A);
        Assert.Equal("A", warm.Name);
        Assert.Contains(warm.Steps, step => step.ShiftDeltaE00 > 0.5);
        Assert.All(warm.Steps, step => Assert.Equal(Illuminant.A, step.After.Condition.Illuminant));

        // Greys stay grey to an adapted eye.
        Recipe[] greys = [.. new[] { "#202020", "#606060", "#a0a0a0" }.Select((hex, i) => Recipe.Of(InventedPaints.Of($"fog {i}", hex)))];
        Assert.All(RampLook.UnderLamp(greys, View.Default, Illuminant.A).Steps, step => Assert.InRange(step.ShiftDeltaE00, 0, 0.3));
    }

    [Fact]
    public void Steps_told_apart_by_red_and_green_alone_merge_for_a_deutan_eye()
    {
        Recipe[] ramp = [Recipe.Of(InventedPaints.Of("weed", "#1e6a2c")), Recipe.Of(InventedPaints.Of("rust", "#8c5a2a")), Recipe.Of(InventedPaints.Of("foam", "#e0e0d8"))];
        var look = RampLook.ToEye(ramp, View.Default, new ColorVision(ColorVisionKind.Deutan));
        Assert.True(look.Steps[1].StepDeltaE00 < 0.5 * look.Steps[1].StepBeforeDeltaE00);
        Assert.NotEmpty(look.Remarks);

        // To most eyes, and over greys to any, nothing changes.
        Assert.Empty(RampLook.ToEye(ramp, View.Default, new ColorVision(ColorVisionKind.Deutan, 0)).Remarks);
        Recipe[] greys = [.. new[] { "#202020", "#606060", "#a0a0a0" }.Select((hex, i) => Recipe.Of(InventedPaints.Of($"fog {i}", hex)))];
        Assert.All(RampLook.ToEye(greys, View.Default, new ColorVision(ColorVisionKind.Tritan)).Steps, step => Assert.InRange(step.ShiftDeltaE00, 0, 0.2));
    }
}
