using CsCheck;
using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests.Ramps;

public class ColorRampTests
{
    private static readonly Paint[] Shelf =
    [
        .. InventedPaints.Shelf,
        InventedPaints.Of("crab", "#a02818"), InventedPaints.Of("bone", "#e8dcb8"), InventedPaints.Of("deep water", "#182850"), InventedPaints.Of("mussel", "#3a2a4a"),
    ];

    private static ColorRamp Around(string hex, ColorRampOptions? options = null, IReadOnlyList<Paint>? shelf = null) => ColorRamp.Around(
        MatchTarget.OfColor(HexColor.Parse(hex).ToXyz(), ViewingCondition.Default), shelf ?? Shelf, View.Default,
        options ?? new ColorRampOptions { Ramp = new RampOptions { Steps = 5, Drops = 12 } }, TestContext.Current.CancellationToken);

    [Fact]
    public void Shadows_and_highlights_lie_around_the_mid_tone() =>
        Gen.Int[0, 5].Select(i => new[] { "#5a6b3c", "#a02818", "#8a6a4d", "#1f8a8c", "#3a4a70", "#808080" }[i]).Sample(hex =>
        {
            var ramp = Around(hex);
            Assert.Equal(5, ramp.Ramp.Steps.Count);
            Assert.InRange(ramp.Place, 2, 4);
            var steps = ramp.Ramp.Steps.Select(step => step.Prediction.Appearance.Lab.L).ToArray();
            Assert.Equal(steps.Order(), steps);
            Assert.True(steps[^1] - steps[0] > 20);
            Assert.Equal(ramp.Middle.Recipe.ToString(), ramp.Ramp.Steps[ramp.Place - 1].Prediction.Recipe.ToString());
            Assert.All(ramp.Ramp.Steps, step => Assert.True(step.Prediction.Recipe.Total <= 12));
        }, iter: 12);

    [Fact]
    public void A_colour_is_not_lightened_into_chalk_where_the_shelf_allows_more()
    {
        // Brute force: what every single paint, stirred into the mid-tone, keeps of its chroma around the lightness of the last step.
        foreach (var hex in new[] { "#a02818", "#6f8f4a", "#8a6a4d" })
        {
            var ramp = Around(hex);
            var (middle, last) = (ramp.Middle.Appearance.Lab, ramp.Ramp.Steps[^1].Prediction.Appearance.Lab);
            var most = Shelf.SelectMany(paint => Enumerable.Range(1, 6).SelectMany(a => Enumerable.Range(1, 6), (a, b) => (a, b)).Select(parts => Add(ramp.Middle.Recipe, parts.a, paint, parts.b)))
                .Select(recipe => Prediction.LabOf(recipe, View.Default))
                .Where(lab => Math.Abs(lab.L - last.L) < 2 && Math.Abs((lab.HueDegrees - middle.HueDegrees) ?? 0) < 20)
                .Select(lab => lab.Chroma).DefaultIfEmpty(0).Max();
            Assert.True(
                last.Chroma >= 0.75 * Math.Min(most, middle.Chroma) || ramp.Remarks.Any(remark => remark.Contains("% of the chroma", StringComparison.Ordinal)),
                $"{hex}: {last.Chroma} of {most}");
        }

        static Recipe Add(Recipe middle, int times, Paint paint, int drops) =>
            new(middle.Parts.Select(part => part with { Parts = part.Parts * times }).Append(new Part(paint, drops)).GroupBy(part => part.Paint.Id).Select(same => same.First() with { Parts = same.Sum(part => part.Parts) }));
    }

    [Fact]
    public void The_hue_goes_where_it_is_asked_to()
    {
        double Hue(HuePath path, Func<EvenRamp, RampStep> step) =>
            step(Around("#5a6b3c", new ColorRampOptions { Path = path, Ramp = new RampOptions { Steps = 5, Drops = 12 } }).Ramp).Prediction.Appearance.Lab.HueDegrees!.Value;

        // From a green: warm light is yellower (a smaller angle), cool shadow is bluer (a larger one).
        Assert.True(Hue(HuePath.WarmLight, ramp => ramp.Steps[^1]) <= Hue(HuePath.Straight, ramp => ramp.Steps[^1]) + 1);
        Assert.True(Hue(HuePath.CoolShadow, ramp => ramp.Steps[0]) >= Hue(HuePath.Straight, ramp => ramp.Steps[0]) - 1);
    }

    [Theory]
    [InlineData(HuePath.Straight, 120, 1, 120)]
    [InlineData(HuePath.WarmLight, 120, 1, 95)]
    [InlineData(HuePath.WarmLight, 120, 0.5, 107.5)]
    [InlineData(HuePath.WarmLight, 120, -1, 120)]
    [InlineData(HuePath.WarmLight, 80, 1, 85)]
    [InlineData(HuePath.CoolShadow, 300, -1, 285)]
    [InlineData(HuePath.CoolShadow, 40, -1, 15)]
    [InlineData(HuePath.WarmLightCoolShadow, 5, -1, 340)]
    public void Hue_paths_turn_the_short_way_and_not_past(HuePath path, double hue, double way, double wanted)
    {
        var middle = new Lab(50, 30 * Math.Cos(hue * Math.PI / 180), 30 * Math.Sin(hue * Math.PI / 180));
        Assert.Equal(wanted, path.Wanted(middle, way)!.Value, 1e-6);
        Assert.Null(path.Wanted(new Lab(50, 0, 0), way));
    }

    [Fact]
    public void Few_paints_are_used_and_what_is_missing_is_said()
    {
        // Black, white and one green: nothing else can be used.
        var ramp = Around("#6f8f4a", shelf: [InventedPaints.TarredRope, InventedPaints.GullWhite, InventedPaints.SeaLettuce]);
        Assert.Equal(3, ramp.Ramp.Steps.SelectMany(step => step.Prediction.Recipe.Parts).Select(part => part.Paint.Id).Distinct().Count());

        // Nothing lighter than white.
        var white = Around("#f4f3ee", shelf: [InventedPaints.TarredRope, InventedPaints.GullWhite]);
        Assert.Null(white.Light);
        Assert.Contains(white.Remarks, remark => remark.Contains("into the light", StringComparison.Ordinal));
        Assert.Equal(white.Ramp.Steps.Count, white.Place);

        Assert.Throws<ArgumentException>(() => Around("#808080", shelf: [InventedPaints.Driftwood]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ColorRampOptions { ChromaShare = 1.2 });
    }
}
