using CsCheck;
using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests.Films;

public class FinishLookTests
{
    [Fact]
    public void Gloss_deepens_and_matt_lifts() =>
        InventedPaints.Any.Sample(paint =>
        {
            var looks = FinishLook.Of(Recipe.Of(paint), ViewingCondition.Default).ToDictionary(look => look.Finish);
            Assert.True(looks[Finish.Gloss].Appearance.Lab.L <= looks[Finish.Satin].Appearance.Lab.L + 1e-9);
            Assert.True(looks[Finish.Satin].Appearance.Lab.L <= looks[Finish.Matt].Appearance.Lab.L + 1e-9);

            // The colour was read without the surface's reflection, as gloss shows it.
            Assert.Equal(0, looks[Finish.Gloss].DeltaE00, 1e-9);
            Assert.All(looks.Values, look => Assert.False(look.IsMeasured));
        }, iter: 50);

    [Fact]
    public void A_black_moves_by_twenty_and_a_white_hardly()
    {
        // About 20 CIEDE2000 between gloss and matt on darks (Berns and de la Rie 2003, abstract).
        double Matt(Paint paint) => FinishLook.Of(Recipe.Of(paint), ViewingCondition.Default).Single(look => look.Finish == Finish.Matt).DeltaE00;
        Assert.InRange(Matt(InventedPaints.TarredRope), 8, 25);
        Assert.InRange(Matt(InventedPaints.GullWhite), 0, 2);
    }

    [Fact]
    public void The_stated_finish_is_marked_and_unchanged()
    {
        var matt = InventedPaints.Driftwood with { Finish = Finish.Matt, Surface = Finish.Matt.Surface() };
        var look = FinishLook.Of(Recipe.Of(matt), ViewingCondition.Default).Single(look => look.IsMeasured);
        Assert.Equal(Finish.Matt, look.Finish);
        Assert.Equal(0, look.DeltaE00, 1e-9);
    }
}
