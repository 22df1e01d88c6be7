using CsCheck;
using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests;

public class BlendTests
{
    /// <summary>Parts of pots are what the pots hold: the mixture as one paint and in paints has one colour.</summary>
    [Fact]
    public void A_blend_of_pots_is_the_blend_of_what_is_in_them() =>
        Gen.Select(Gen.Shuffle(InventedPaints.Shelf.ToArray(), 4, 4), Gen.Int[1, 5].Array[6], Gen.Double[15, 50]).Sample((paints, n, dropsPerMl) =>
        {
            Recipe[] pots =
            [
                new([new Part(paints[0], n[0]), new Part(paints[1] with { DropsPerMl = dropsPerMl }, n[1])]),
                new([new Part(paints[2], n[2]), new Part(paints[3], n[3])]),
            ];
            var asPaints = new Recipe(pots.Select((pot, i) => new Part(Blend.AsPaint(pot), n[4 + i])));
            var asParts = new Blend([new BlendPart(pots[0], n[4]), new BlendPart(pots[1], n[5])]).Recipe;
            Assert.Equal(0, DeltaE2000.Between(Prediction.LabOf(asPaints, View.Default), Prediction.LabOf(asParts, View.Default)), 6);
        });

    [Fact]
    public void The_drops_of_a_pot_do_not_depend_on_their_order_or_scale() => Assert.Equal(
        SchemeMix.KeyOf(new Recipe([new Part(InventedPaints.Kelp, 2), new Part(InventedPaints.Peat, 4)])),
        SchemeMix.KeyOf(new Recipe([new Part(InventedPaints.Peat, 2), new Part(InventedPaints.Kelp, 1)])));
}
