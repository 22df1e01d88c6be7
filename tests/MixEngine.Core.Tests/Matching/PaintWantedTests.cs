using CsCheck;
using MixEngine.Colorimetry;
using static MixEngine.Core.Tests.InventedPaints;

namespace MixEngine.Core.Tests.Matching;

/// <summary>What is said to open a target does, put on the shelf.</summary>
public class PaintWantedTests
{
    private static readonly Gen<Lab> SurfaceColor = Gen.Select(Gen.Byte, Gen.Byte, Gen.Byte)
        .Select((r, g, b) => Lab.FromXyz(HexColor.Parse($"#{r:x2}{g:x2}{b:x2}").ToXyz(), TristimulusWeights.For(ViewingCondition.Default).White));

    [Fact]
    public void It_comes_as_near_as_it_says() =>
        Gen.Select(SurfaceColor, Gen.Bool, Gen.Bool).Sample(
            (color, withMust, onBase) =>
            {
                var target = MatchTarget.OfLab(color, ViewingCondition.Default);
                var options = new MatchOptions
                {
                    Paints = 2,
                    Must = withMust ? [Kelp.Id] : [],
                    Base = onBase ? new Recipe([new Part(Driftwood, 3)]) : null,
                };
                var found = RecipeSearch.Find(target, Shelf, options);
                if (PaintWanted.For(target, Shelf, options, found.Best) is not { } wanted)
                {
                    return;
                }

                Assert.True(wanted.DeltaE00 <= Math.Max(options.Tolerance, found.Best.DeltaE00 / 2));
                var paint = ColorGrade.Characterize(
                    new Paint { Id = "bought", Name = "bought", Optics = AbsorptionScattering.Clear, Grade = Grade.Color },
                    wanted.Look.Xyz, wanted.Look.Condition, ColorGrade.LabReading);
                var with = RecipeSearch.Find(target, [.. Shelf, paint], options with { Tolerance = 0 });
                // At the edge of what a film can show a colour moves a little each time it is read: by less than an eye sees.
                Assert.True(with.Best.DeltaE00 <= wanted.DeltaE00 + MatchOptions.Unseen, $"{with.Best.DeltaE00} > {wanted.DeltaE00}");
            },
            iter: 60);

    [Fact]
    public void A_vivid_colour_that_only_dull_paints_are_there_for_wants_a_more_vivid_paint()
    {
        var target = MatchTarget.OfColor(HexColor.Parse("#b000b0").ToXyz(), ViewingCondition.Default);
        Paint[] dull = [TarredRope, GullWhite, Driftwood];
        var stop = TestContext.Current.CancellationToken;
        var wanted = PaintWanted.For(target, dull, new(), RecipeSearch.Find(target, dull, stop: stop).Best, stop);
        Assert.NotNull(wanted);
        Assert.InRange(wanted.DeltaE00, 0, MatchOptions.Unseen);
        Assert.Contains("more vivid", wanted.Words, StringComparison.Ordinal);
    }
}
