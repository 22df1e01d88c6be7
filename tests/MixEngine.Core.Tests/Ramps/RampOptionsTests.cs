using CsCheck;
using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests.Ramps;

public class RampOptionsTests
{
    private static readonly Recipe Black = Recipe.Of(InventedPaints.TarredRope);
    private static readonly Recipe Dark = Recipe.Of(InventedPaints.Kelp);
    private static readonly Recipe Light = Recipe.Of(InventedPaints.SeaLettuce);
    private static readonly Recipe White = Recipe.Of(InventedPaints.GullWhite);

    private static EvenRamp Ramp(RampOptions options, params Recipe[] through) =>
        EvenRamp.Through(through, View.Default, options, TestContext.Current.CancellationToken);

    private static double[] Sizes(IEnumerable<RampStep> steps) => [.. steps.Skip(1).Select(step => step.StepSize!.Value)];

    [Theory]
    [InlineData(StepDifference.Ciede2000)]
    [InlineData(StepDifference.Cam16Ucs)]
    [InlineData(StepDifference.OkLab)]
    [InlineData(StepDifference.Lightness)]
    public void Undivided_steps_are_even_in_the_difference_chosen(StepDifference difference)
    {
        var ramp = Ramp(new RampOptions { Steps = 7, Drops = 12, Difference = difference }, Black, Dark, Light, White);
        var sizes = Sizes(ramp.Undivided);
        Assert.All(sizes, size => Assert.Equal(sizes.Average(), size, 0.01 * sizes.Average()));

        // And the size is what it says it is.
        var (from, to) = (ramp.Steps[2].Prediction.Appearance, ramp.Steps[3].Prediction.Appearance);
        var white = TristimulusWeights.For(ViewingCondition.Default).White;
        Cam16Ucs Ucs(Xyz xyz) => Cam16Ucs.FromXyz(xyz, Cam16ViewingConditions.Desk(white));
        var expected = difference switch
        {
            StepDifference.Cam16Ucs => Distance(Ucs(from.Xyz).J - Ucs(to.Xyz).J, Ucs(from.Xyz).A - Ucs(to.Xyz).A, Ucs(from.Xyz).B - Ucs(to.Xyz).B),
            StepDifference.OkLab => 100 * Distance(
                OkLab.FromXyz(from.Xyz, white).L - OkLab.FromXyz(to.Xyz, white).L,
                OkLab.FromXyz(from.Xyz, white).A - OkLab.FromXyz(to.Xyz, white).A,
                OkLab.FromXyz(from.Xyz, white).B - OkLab.FromXyz(to.Xyz, white).B),
            StepDifference.Lightness => to.Lab.L - from.Lab.L,
            _ => DeltaE2000.Between(from.Lab, to.Lab),
        };
        Assert.Equal(expected, ramp.Steps[3].StepSize!.Value, 1e-9);
    }

    private static double Distance(double x, double y, double z) => Math.Sqrt(x * x + y * y + z * z);

    [Theory]
    [InlineData(0.4)]
    [InlineData(2)]
    public void Steps_shrink_or_grow_towards_the_light(double topStep)
    {
        var ramp = Ramp(new RampOptions { Steps = 6, Drops = 24, TopStep = topStep }, Dark, Light);
        var sizes = Sizes(ramp.Undivided);
        Assert.Equal(topStep, sizes[^1] / sizes[0], 0.02 * topStep);
        for (var i = 1; i < sizes.Length; i++)
        {
            Assert.Equal(Math.Pow(topStep, 1.0 / 4), sizes[i] / sizes[i - 1], 0.02);
        }

        var whole = Sizes(ramp.Steps);
        Assert.Equal(topStep < 1, whole[^1] < whole[0]);
        Assert.DoesNotContain(ramp.Steps, step => step.Remarks.Any(remark => remark.StartsWith("Bands", StringComparison.Ordinal)));
    }

    [Fact]
    public void Kept_recipes_are_steps()
    {
        var ramp = Ramp(new RampOptions { Steps = 8, Drops = 12, Kept = [1, 2] }, Black, Dark, Light, White);
        foreach (var steps in new[] { ramp.Steps, ramp.Undivided })
        {
            Assert.Equal(8, steps.Count);
            foreach (var paint in new[] { "tarred-rope", "kelp", "sea-lettuce", "gull-white" })
            {
                Assert.Single(steps, step => step.Prediction.Recipe.Parts is [{ Paint.Id: var id }] && id == paint);
            }
        }

        // The same when it is named from the light end.
        var turned = Ramp(new RampOptions { Steps = 8, Drops = 12, Kept = [1, 2] }, White, Light, Dark, Black);
        Assert.Equal(ramp.Steps.Select(step => step.Prediction.Recipe.ToString()), turned.Steps.Select(step => step.Prediction.Recipe.ToString()));
    }

    [Fact]
    public void A_kept_recipe_that_goes_down_is_refused()
    {
        var fault = Assert.Throws<ArgumentException>(() => Ramp(new RampOptions { Kept = [1] }, Dark, White, Light));
        Assert.Contains("darker than", fault.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => Ramp(new RampOptions { Kept = [3] }, Dark, Light, White));
        Assert.Throws<ArgumentException>(() => Ramp(new RampOptions { Steps = 2, Kept = [1] }, Dark, Light, White));
    }

    [Fact]
    public void Number_of_steps_is_found_from_the_largest()
    {
        foreach (var largest in new[] { 9.0, 15 })
        {
            var ramp = Ramp(new RampOptions { FewestSteps = true, LargestStep = largest, Drops = 80 }, Black, Dark, White);
            Assert.All(Sizes(ramp.Steps), size => Assert.True(size <= largest));
            Assert.All(Sizes(ramp.Undivided), size => Assert.True(size <= largest * 1.01));

            // One step fewer would have to take larger ones.
            var fewer = Ramp(new RampOptions { Steps = ramp.Undivided.Count - 1, Drops = 24 }, Black, Dark, White);
            Assert.True(Sizes(fewer.Undivided).Max() > largest);
        }

        var coarse = Ramp(new RampOptions { FewestSteps = true, LargestStep = 2, Drops = 2 }, Black, White);
        Assert.Contains(coarse.Remarks, remark => remark.StartsWith("With at most 2 drops no number of steps", StringComparison.Ordinal));
        Assert.Throws<ArgumentException>(() => Ramp(new RampOptions { FewestSteps = true }, Black, White));
    }

    [Fact]
    public void Limits_are_kept_or_it_is_said()
    {
        var ramp = Ramp(new RampOptions { Steps = 12, Drops = 16, SmallestStep = 3, LargestStep = 9 }, Dark, Light);
        Assert.All(Sizes(ramp.Steps), size => Assert.InRange(size, 3, 9));
        Assert.True(ramp.Steps.Count < 12);
        Assert.Contains(ramp.Remarks, remark => remark.Contains("steps instead of 12", StringComparison.Ordinal));

        var narrow = Ramp(new RampOptions { Steps = 4, Drops = 2, SmallestStep = 5, LargestStep = 6 }, Black, White);
        Assert.Contains(narrow.Remarks, remark => remark.Contains("no ramp on this way keeps within", StringComparison.Ordinal));
        Assert.Throws<ArgumentException>(() => Ramp(new RampOptions { SmallestStep = 5, LargestStep = 4 }, Black, White));
    }

    [Fact]
    public void Ends_need_not_be_exact_nor_countable_when_so_asked()
    {
        var end = new Recipe([new Part(InventedPaints.Kelp, 5), new Part(InventedPaints.Peat, 4)]);
        Assert.Throws<ArgumentException>(() => Ramp(new RampOptions { Steps = 4 }, end, White));

        var painted = Ramp(new RampOptions { Steps = 4, EndsArePainted = true }, end, White);
        Assert.Equal(9, painted.Steps[0].Prediction.Recipe.Total);
        Assert.All(painted.Steps.Skip(1), step => Assert.True(step.Prediction.Recipe.Total <= 6));

        var mixed = new Recipe([new Part(InventedPaints.Kelp, 5), new Part(InventedPaints.GullWhite, 4)]);
        var loose = Ramp(new RampOptions { Steps = 4, KeepEnds = false }, mixed, White);
        Assert.All(loose.Steps, step => Assert.True(step.Prediction.Recipe.Total <= 6));
        Assert.True(Ramp(new RampOptions { Steps = 5, KeepEnds = false }, Dark, White).Unevenness <= Ramp(new RampOptions { Steps = 5 }, Dark, White).Unevenness + 1e-9);
    }

    [Fact]
    public void Limited_and_shrinking_ramps_are_the_best_of_all_that_can_be_counted() =>
        Gen.Select(Gen.Double[0.3, 3], Gen.Int[3, 5], Gen.Int[3, 6], Gen.Int[0, 3]).Sample((top, steps, drops, pair) =>
        {
            var (dark, light) = new[] { (Black, Light), (Dark, White), (Black, White), (Dark, Light) }[pair];
            var options = new RampOptions { Steps = steps, Drops = drops, TopStep = top, LargestStep = 40 };
            var ramp = Ramp(options, dark, light);
            if (ramp.Steps.Count != steps)
            {
                return;
            }

            // Every chain of every mixture, by brute force.
            var labs = new RampLeg(dark, light).WholeDrops(drops).Select(mixture => mixture.Recipe).Prepend(dark).Append(light)
                .Select(recipe => Prediction.LabOf(recipe, View.Default)).ToArray();
            var best = double.PositiveInfinity;
            void Walk(List<int> chain)
            {
                if (chain.Count == steps - 1)
                {
                    int[] all = [.. chain, labs.Length - 1];
                    var sizes = all.Skip(1).Zip(all, (to, from) => labs[to].L >= labs[from].L - 1e-9 ? DeltaE2000.Between(labs[from], labs[to]) : double.NaN).ToArray();
                    if (sizes.All(size => size <= 40))
                    {
                        best = Math.Min(best, Unevenness.Of([.. sizes.Select((size, i) => size / Math.Pow(top, (double)i / Math.Max(1, steps - 2)))]));
                    }

                    return;
                }

                for (var next = chain[^1] + 1; next < labs.Length - 1; next++)
                {
                    Walk([.. chain, next]);
                }
            }

            Walk([0]);
            Assert.Equal(best, ramp.Unevenness, 1e-9);
        }, iter: 40);
}
