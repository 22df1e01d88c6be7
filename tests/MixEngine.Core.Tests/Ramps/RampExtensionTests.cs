using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests.Ramps;

public class RampExtensionTests
{
    private static readonly Recipe[] Ramp =
        [.. EvenRamp.Through([Recipe.Of(InventedPaints.Kelp), Recipe.Of(InventedPaints.SeaLettuce)], View.Default, new RampOptions { Steps = 5, Drops = 12 })
            .Steps.Select(step => step.Prediction.Recipe)];

    private static IReadOnlyList<RampExtension> Extend(RampEnd end, IEnumerable<Paint> with, Recipe[]? ramp = null) =>
        RampExtension.Of(ramp ?? Ramp, end, with, View.Default, new RampOptions { Drops = 12 }, TestContext.Current.CancellationToken);

    [Theory]
    [InlineData(RampEnd.Light)]
    [InlineData(RampEnd.Dark)]
    public void Goes_on_by_about_a_step_on_the_right_side(RampEnd end)
    {
        var last = Prediction.LabOf(end == RampEnd.Light ? Ramp[^1] : Ramp[0], View.Default);
        var found = Extend(end, InventedPaints.Shelf);
        Assert.NotEmpty(found);
        Assert.All(found, step => Assert.Equal(end == RampEnd.Light, step.Prediction.Appearance.Lab.L > last.L));
        var usual = Ramp.Skip(1).Zip(Ramp, (to, from) => DeltaE2000.Between(Prediction.LabOf(from, View.Default), Prediction.LabOf(to, View.Default))).Average();
        Assert.InRange(found[0].StepDeltaE00, 0.5 * usual, 1.6 * usual);
        Assert.All(found, step => Assert.True(step.Prediction.Recipe.Total <= 12));

        // The order in which the ramp is given does not matter.
        Assert.Equal(found[0].Prediction.Recipe.ToString(), Extend(end, InventedPaints.Shelf, [.. Ramp.Reverse()])[0].Prediction.Recipe.ToString());
    }

    [Fact]
    public void Of_one_paint_the_nearest_in_size_is_taken_by_brute_force()
    {
        var found = Assert.Single(Extend(RampEnd.Light, [InventedPaints.GullWhite, Paint.Medium]));
        Assert.Same(InventedPaints.GullWhite, found.With);
        var best = Enumerable.Range(1, 11).SelectMany(a => Enumerable.Range(1, 12 - a), (a, b) => (a, b))
            .Select(parts => Prediction.LabOf(new Recipe([new Part(InventedPaints.SeaLettuce, parts.a), new Part(InventedPaints.GullWhite, parts.b)]), View.Default))
            .Where(lab => lab.L > Prediction.LabOf(Ramp[^1], View.Default).L)
            .Min(lab => Cost(lab));
        Assert.Equal(best, Cost(found.Prediction.Appearance.Lab), 1e-9);

        double Cost(Lab lab)
        {
            var shift = ColorShift.Between(Prediction.LabOf(Ramp[^1], View.Default), lab);
            var sizes = Ramp.Skip(1).Zip(Ramp, (to, from) => DeltaE2000.Between(Prediction.LabOf(from, View.Default), Prediction.LabOf(to, View.Default))).Order().ToArray();
            return Math.Abs(shift.DeltaE00 - (sizes[1] + sizes[2]) / 2) + shift.Hue + 0.5 * Math.Max(0, -shift.Vividness);
        }
    }

    [Fact]
    public void Where_nothing_leads_further_nothing_is_answered()
    {
        Assert.Empty(Extend(RampEnd.Light, [InventedPaints.TarredRope]));
        Assert.Throws<ArgumentException>(() => Extend(RampEnd.Light, InventedPaints.Shelf, [Ramp[0]]));
    }
}
