using CsCheck;
using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests.Coverage;

public class CoatsToHideTests
{
    [Fact]
    public void Count_is_the_first_coat_that_hides() =>
        Gen.Select(InventedPaints.Any, Gen.Int[0, 2].Select(i => Primer.All[i])).Sample((paint, primer) =>
        {
            var cover = CoatsToHide.Over(primer.Surface, Recipe.Of(paint), View.Default);
            Assert.Equal(cover.Count ?? Coats.Most, cover.Steps.Count);
            Assert.Equal(cover.Steps.Select((_, i) => i + 1), cover.Steps.Select(step => step.Coat));
            foreach (var step in cover.Steps)
            {
                Assert.Equal(step.Coat == cover.Count, Hidden.Is(step.Appearance.Lab, cover.Hiding.Lab));
                Assert.InRange(step.ContrastRatio, 0, 1 + 1e-9);
                Assert.Equal(step.RemainingDeltaE00, DeltaE2000.Between(step.Appearance.Lab, cover.Hiding.Lab), 1e-12);
            }

            // What is known of the paint brackets the count.
            Assert.True(cover.CountAtBest is null || cover.CountAtBest <= (cover.Count ?? Coats.Most));
            Assert.True(cover.CountAtWorst is null || cover.CountAtWorst >= cover.Count);
            Assert.True(cover.Count is not null || cover.Remarks.Any(remark => remark.StartsWith("Not hidden", StringComparison.Ordinal)));
        }, iter: 60);

    [Fact]
    public void Contrast_over_the_chart_rises_with_every_coat()
    {
        var ratios = CoatsToHide.Over(Primer.Black.Surface, Recipe.Of(InventedPaints.BuoyYellow), View.Default, cancellation: TestContext.Current.CancellationToken).Steps.Select(step => step.ContrastRatio).ToArray();
        Assert.True(ratios.Length > 3);
        Assert.Equal(ratios.Order(), ratios);
    }

    [Fact]
    public void Yellow_needs_more_coats_over_black_than_over_white_and_more_than_a_hiding_brown()
    {
        // Common practice, no source: red and yellow hide badly.
        int Over(Primer primer, Paint paint) => CoatsToHide.Over(primer.Surface, Recipe.Of(paint), View.Default).Count ?? 1000;
        Assert.True(Over(Primer.Black, InventedPaints.BuoyYellow) > Over(Primer.White, InventedPaints.BuoyYellow));
        Assert.True(Over(Primer.Black, InventedPaints.BuoyYellow) > Over(Primer.Black, InventedPaints.Driftwood));
    }

    [Fact]
    public void Thinner_coats_need_to_be_more()
    {
        int Of(double um) => CoatsToHide.Over(Primer.White.Surface, Recipe.Of(InventedPaints.Driftwood), View.Default, um).Count ?? 1000;
        Assert.True(Of(5) > Of(20));
        Assert.Equal(1, Of(200));
    }

    [Fact]
    public void A_colour_of_the_primers_luminance_is_not_hidden_by_luminance_alone()
    {
        // The contrast ratio of a red on a grey of the same luminance is 1 before the first coat.
        var grey = PaintedSurface.OfColor(HexColor.Parse("#777777").ToXyz(), ViewingCondition.Default);
        var l = grey.Stack().LabUnder(View.Default).L;
        var red = InventedPaints.Of("red algae", DisplayColor.From(new Lab(l, 45, 25).ToXyz(TristimulusWeights.For(ViewingCondition.Default).White), TristimulusWeights.For(ViewingCondition.Default).White).Hex.ToString(), OpacityWord.SemiTransparent);
        var cover = CoatsToHide.Over(grey, Recipe.Of(red), View.Default, cancellation: TestContext.Current.CancellationToken);
        Assert.True(Hidden.HoldsContrast(grey.Stack().LabUnder(View.Default), cover.Hiding.Lab));
        Assert.True(cover.Count > 1);
    }

    [Fact]
    public void Better_known_paint_narrows_the_count()
    {
        var better = InventedPaints.Driftwood with { Uncertainty = [] };
        var known = CoatsToHide.Over(Primer.White.Surface, Recipe.Of(better), View.Default, 5, cancellation: TestContext.Current.CancellationToken);
        var guessed = CoatsToHide.Over(Primer.White.Surface, Recipe.Of(InventedPaints.Driftwood), View.Default, 5, cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(known.Count, guessed.Count);
        Assert.True(known.CountAtWorst - known.CountAtBest < guessed.CountAtWorst - guessed.CountAtBest);
    }

    [Fact]
    public void Names_of_primers()
    {
        Assert.Same(Primer.Grey, Primer.FromName(" Grey "));
        Assert.Contains("'pink'", Assert.Throws<ArgumentException>(() => Primer.FromName("pink")).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => CoatsToHide.Over(Primer.Black.Surface, Recipe.Of(Paint.Medium), View.Default, cancellation: TestContext.Current.CancellationToken));
    }
}
