namespace MixEngine.Core.Tests.Coverage;

public class UndercoatTests
{
    [Fact]
    public void A_light_undercoat_saves_coats_of_a_yellow_over_black()
    {
        // Common practice, no source: under a yellow goes a hiding brown, bone or white.
        var yellow = Recipe.Of(InventedPaints.BuoyYellow);
        var best = Undercoat.Best(Primer.Black, yellow, InventedPaints.Shelf, View.Default, cancellation: TestContext.Current.CancellationToken)!;
        var alone = CoatsToHide.Over(Primer.Black.Surface, yellow, View.Default, cancellation: TestContext.Current.CancellationToken).Count ?? Coats.Most + 1;
        Assert.True(best.Total < alone);
        Assert.NotEqual("buoy-yellow", best.Paint.Id);

        // It holds when painted coat by coat.
        var stack = Primer.Black.Surface.Under(new Coats(Recipe.Of(best.Paint), best.Coats)).Under(new Coats(yellow, best.CoatsAbove)).Stack();
        var hiding = PaintedSurface.OfHidingLayer(yellow).Stack().LabUnder(View.Default);
        Assert.True(Hidden.Is(stack.LabUnder(View.Default), hiding));

        // Nothing on the shelf is better: every paint, every number of coats beneath.
        foreach (var paint in InventedPaints.Shelf.Where(paint => paint.Id != "buoy-yellow"))
        {
            for (var beneath = 1; beneath < best.Total; beneath++)
            {
                var surface = Primer.Black.Surface.Under(new Coats(Recipe.Of(paint), beneath));
                var above = CoatsToHide.CountOver(surface.Stack(), yellow, View.Default, Film.ConventionalCoatUm, best.Total);
                Assert.True(above is null || beneath + above >= best.Total);
            }
        }
    }

    [Fact]
    public void What_hides_at_once_needs_none() =>
        Assert.Null(Undercoat.Best(Primer.Black, Recipe.Of(InventedPaints.TarredRope), InventedPaints.Shelf, View.Default, cancellation: TestContext.Current.CancellationToken));

    [Fact]
    public void An_empty_shelf_saves_nothing() =>
        Assert.Null(Undercoat.Best(Primer.White, Recipe.Of(InventedPaints.BuoyYellow), [Paint.Medium], View.Default, cancellation: TestContext.Current.CancellationToken));
}
