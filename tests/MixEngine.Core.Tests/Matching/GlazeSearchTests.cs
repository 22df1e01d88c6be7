using CsCheck;
using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests.Matching;

public class GlazeSearchTests
{
    private static PaintedSurface Colored(string hex) => PaintedSurface.OfColor(HexColor.Parse(hex).ToXyz(), ViewingCondition.Default);

    private static GlazeSearchResult Find(IReadOnlyList<PaintedSurface> layers, Lab target, IEnumerable<Paint> paints, GlazeSearchOptions? options = null) =>
        GlazeSearch.Find(layers, target, paints.Select(Recipe.Of), View.Default, options, TestContext.Current.CancellationToken);

    [Fact]
    public void Finds_a_glaze_that_it_predicted_itself() =>
        Gen.Select(InventedPaints.Any, Gen.Int[0, 10], Gen.Int[1, 6], Gen.Double[0.1, 0.9], Gen.Double[0.05, 1]).Sample((paint, medium, coats, backing, tolerance) =>
        {
            var layer = PaintedSurface.OfInternal(Reflectance.Constant(backing));
            var made = Glaze.Over(layer, new Coats(Recipe.Of(paint).LetDown(medium, 0), coats), View.Default).Coats[^1].Appearance.Lab;
            var found = Find([layer], made, [paint], new GlazeSearchOptions { Tolerance = tolerance });
            Assert.True(found.Reached);
            Assert.Null(found.Reason);
            var best = found.Matches[0];
            Assert.InRange(best.DeltaE00, 0, tolerance);
            Assert.True(best.Coats.Count <= coats);

            // And what it answers is what a glaze does.
            var again = Glaze.Over(layer, best.Coats, View.Default).Coats[^1].Appearance.Lab;
            Assert.Equal(best.DeltaE00, DeltaE2000.Between(made, again), 1e-9);
        }, iter: 30);

    [Fact]
    public void Of_several_paints_the_right_one_is_found()
    {
        var layer = Colored("#c9c9c9");
        var made = Glaze.Over(layer, new Coats(Recipe.Of(InventedPaints.TidePool).LetDown(6, 0), 3), View.Default, TestContext.Current.CancellationToken).Coats[^1].Appearance.Lab;
        var found = Find([layer], made, InventedPaints.Shelf);
        Assert.True(found.Reached);
        Assert.Equal("tide-pool", found.Matches[0].Undiluted.Parts[0].Paint.Id);
        Assert.Equal(found.Matches.Count, found.Matches.Select(match => match.Undiluted.Parts[0].Paint.Id).Distinct().Count());
        Assert.Equal(found.Matches.Select(match => match.DeltaE00).Order(), found.Matches.Select(match => match.DeltaE00));
    }

    [Fact]
    public void A_dark_hiding_layer_is_not_lightened_by_a_glaze_and_it_is_said_why()
    {
        var found = Find([PaintedSurface.OfHidingLayer(Recipe.Of(InventedPaints.Peat))], new Lab(90, 0, 5), [InventedPaints.TidePool]);
        Assert.False(found.Reached);
        Assert.Contains("does not lighten", found.Reason, StringComparison.Ordinal);
        Assert.NotEmpty(found.Matches);
    }

    [Fact]
    public void A_hue_that_the_paint_does_not_have_is_told()
    {
        var found = Find([Colored("#c0c0c0")], new Lab(70, 40, 30), [InventedPaints.TidePool]);
        Assert.False(found.Reached);
        Assert.Contains("pulls elsewhere", found.Reason, StringComparison.Ordinal);

        var darker = Find([Colored("#c0c0c0")], new Lab(5, 0, 0), [InventedPaints.BuoyYellow]);
        Assert.Contains("darken", darker.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_glaze_unifies_a_ramp_and_keeps_its_steps_apart()
    {
        // Five greys of different tints come together in a turquoise.
        PaintedSurface[] ramp = [.. new[] { "#40383a", "#5c6458", "#8a8490", "#a8b0a8", "#d0c8cc" }.Select(Colored)];
        var target = new Lab(55, -15, -10);
        var found = Find(ramp, target, [InventedPaints.TidePool]);
        var best = found.Matches[0];
        Assert.Equal(5, best.Layers.Count);
        Assert.True(best.Coats.Count >= 1);

        // Nearer to the target's hue and chroma than before, at every step nearer to one another, still a ramp.
        double Off(Lab lab) => DeltaE2000.Between(target with { L = lab.L }, lab);
        Assert.True(best.Layers.Average(layer => Off(layer.After.Lab)) < 0.5 * best.Layers.Average(layer => Off(layer.Before.Lab)));
        Assert.All(best.Layers.Skip(1), layer => Assert.True(layer.StepDeltaE00 >= 1));
        Assert.Equal(best.Layers.Select(layer => layer.After.Lab.L).Order(), best.Layers.Select(layer => layer.After.Lab.L));
    }

    [Fact]
    public void Water_and_limits_are_kept_and_said()
    {
        var found = Find([Colored("#c9c9c9")], new Lab(50, -25, -10), [InventedPaints.TidePool], new GlazeSearchOptions { WaterParts = 4, MediumParts = [0, 2], MostCoats = 3 });
        var best = found.Matches[0];
        Assert.InRange(best.Coats.Count, 1, 3);
        Assert.Contains(best.MediumParts, new[] { 0.0, 2 });
        Assert.Contains(best.Coats.Recipe.Parts, part => part.Paint.Kind == PaintKind.Water && part.Parts == 4);
        Assert.Contains(best.Remarks, remark => remark.Contains("Water is", StringComparison.Ordinal));
        Assert.Throws<ArgumentException>(() => Find([], new Lab(50, 0, 0), [InventedPaints.TidePool]));
        Assert.Throws<ArgumentException>(() => Find([Colored("#c9c9c9")], new Lab(50, 0, 0), [Paint.Medium]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new GlazeSearchOptions { MostCoats = 0 });
    }
}
