using CsCheck;

namespace MixEngine.Core.Tests;

public class PotTests
{
    private static readonly Gen<Recipe> AnyRecipe =
        Gen.Select(Gen.Shuffle(InventedPaints.Shelf.ToArray(), 1, 3), Gen.Int[1, 5].Array[3], (paints, parts) => new Recipe(paints.Select((paint, i) => new Part(paint, parts[i]))));

    [Fact]
    public void There_is_always_enough_in_whole_drops_of_nearly_the_same_colour() => Gen.Select(AnyRecipe, Gen.Double[0.001, 30]).Sample((recipe, ml) =>
    {
        var pot = Pot.Of(recipe, ml, View.Default);
        Assert.True(pot.Ml >= ml - 1e-9);
        Assert.Equal(Pot.MlOf(pot.Scaled), pot.Ml, 9);
        Assert.InRange(pot.RoundingDeltaE00, 0, Pot.UnseenRounding);
        Assert.All(pot.Scaled.Parts, part => Assert.True(part.Parts >= 1 && part.Parts == Math.Round(part.Parts)));

        // Never more than the next multiple of the recipe in its smallest drops.
        var smallest = Pot.MlOf(recipe.InWholeDrops());
        Assert.True(pot.Ml <= Math.Max(smallest, Math.Ceiling(ml / smallest) * smallest) + 1e-9);
    });

    [Fact]
    public void A_brushful_is_warned_of_and_a_potful_is_not()
    {
        var recipe = new Recipe([new Part(InventedPaints.Kelp, 2), new Part(InventedPaints.Peat, 1)]);
        Assert.Contains("brushful", Pot.Of(recipe, 0.02, View.Default).Warning, StringComparison.Ordinal);
        Assert.Null(Pot.Of(recipe, 3, View.Default).Warning);
    }

    [Fact]
    public void A_bottles_own_drops_count()
    {
        var fine = InventedPaints.Kelp with { DropsPerMl = 40 };
        Assert.Equal(40, Pot.Of(Recipe.Of(fine), 1, View.Default).Scaled.Total);
        Assert.Equal(20, Pot.Of(Recipe.Of(InventedPaints.Kelp), 1, View.Default).Scaled.Total);
    }

    /// <summary>1 cm² under 57 µm is 5.7 µl; half is lost, a fifth is for touching up: 13.7 µl (computed by hand).</summary>
    [Fact]
    public void A_square_centimetre_takes_this_much()
    {
        Assert.Equal(20 / 0.35 * 1e-4 / 0.5 * 1.2, PaintVolume.Ml(1, 1, 1, 1, 0.2), 12);
        Assert.Equal(10 * PaintVolume.Ml(1, 1, 1, 1, 0.2), PaintVolume.Ml(1, 0.5, 2, 10, 0.2), 12);
    }

    [Fact]
    public void Half_parts_of_medium_are_doubled()
    {
        var pot = Pot.Of(Recipe.Of(InventedPaints.TidePool).LetDown(2.5, 0), 0.1, View.Default);
        Assert.Equal("2 + 5", pot.DropsText);
    }
}
