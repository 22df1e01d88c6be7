using CsCheck;
using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests.Ramps;

public class EvenRampTests
{
    private static Recipe Mix(params (Paint Paint, double Parts)[] parts) => new(parts.Select(part => new Part(part.Paint, part.Parts)));

    private static EvenRamp Ramp(IReadOnlyList<Recipe> through, int steps, int drops) =>
        EvenRamp.Through(through, View.Default, new RampOptions { Steps = steps, Drops = drops });

    private static Lab LabOf(Recipe recipe) => Prediction.LabOf(recipe, View.Default);

    private static readonly Gen<Recipe[]> Through =
        InventedPaints.Any.Array[2, 3].Select(paints => paints.Select((paint, i) => Recipe.Of(paint with { Id = $"{paint.Id}-{i}" })).ToArray());

    [Fact]
    public void Climbs_from_end_to_end_in_whole_drops() =>
        Gen.Select(Through, Gen.Int[2, 8], Gen.Int[1, 9]).Sample((through, steps, drops) =>
        {
            var ramp = Ramp(through, steps, drops);
            var ends = new[] { through[0], through[^1] }.OrderBy(end => LabOf(end).L).Select(end => end.Parts[0].Paint.Id).ToArray();
            Assert.Equal(ends, new[] { ramp.Steps[0], ramp.Steps[^1] }.Select(step => Assert.Single(step.Prediction.Recipe.Parts).Paint.Id));

            var lightness = ramp.Steps.Select(step => step.Prediction.Appearance.Lab.L).ToArray();
            for (var i = 1; i < lightness.Length; i++)
            {
                Assert.True(lightness[i] >= lightness[i - 1] - 1e-6);
            }

            foreach (var step in ramp.Steps)
            {
                Assert.True(step.Prediction.Recipe.Total <= drops);
                Assert.All(step.Prediction.Recipe.Parts, part => Assert.Equal(Math.Round(part.Parts), part.Parts));
            }

            Assert.InRange(ramp.Steps.Count, 2, steps);
            Assert.True(ramp.Steps.Count == steps || ramp.Remarks.Any(remark => remark.StartsWith("Only", StringComparison.Ordinal)));
            Assert.True(ramp.Undivided.Count == steps || ramp.Remarks.Any(remark => remark.Contains("do not exist", StringComparison.Ordinal)));
        }, iter: 50);

    [Fact]
    public void Undivided_steps_are_even_or_it_is_said_why() =>
        Gen.Select(Through, Gen.Int[2, 8]).Sample((through, steps) =>
        {
            var ramp = Ramp(through, steps, 2);
            var sizes = ramp.Undivided.Skip(1).Select(step => step.StepDeltaE00!.Value).ToArray();
            var mean = sizes.Average();
            Assert.True(
                sizes.All(size => Math.Abs(size - mean) <= 0.0101 * mean)
                || ramp.Remarks.Any(remark => remark.StartsWith("Even if drops", StringComparison.Ordinal)));
        }, iter: 50);

    [Fact]
    public void Of_two_hundred_ways_that_climb_at_least_ninety_nine_in_a_hundred_are_solved_evenly()
    {
        var random = new Random(20261125);
        Paint Any(int i) => InventedPaints.Of($"p{i}", $"#{random.Next(256):x2}{random.Next(256):x2}{random.Next(256):x2}", (OpacityWord)random.Next(4));
        var (climbing, even) = (0, 0);
        for (var i = 0; climbing < 200; i++)
        {
            Recipe[] through = [.. Enumerable.Range(0, 2 + i % 2).Select(node => Recipe.Of(Any(10 * i + node))).OrderBy(recipe => LabOf(recipe).L)];
            if (!Climbs(through))
            {
                continue;
            }

            climbing++;
            var ramp = Ramp(through, 3 + i % 6, 1);
            var sizes = ramp.Undivided.Skip(1).Select(step => step.StepDeltaE00!.Value).ToArray();
            even += sizes.All(size => Math.Abs(size - sizes.Average()) <= 0.01 * sizes.Average()) ? 1 : 0;
        }

        Assert.InRange(even, 198, 200);
    }

    // Whether no mixture on the way is darker than one before it, looked at more closely where little of a paint does much.
    private static bool Climbs(Recipe[] through) =>
        through.Skip(1).Zip(through, (to, from) => new RampLeg(from, to)).All(leg =>
        {
            double[] places = [.. Enumerable.Range(0, 41).Select(i => Math.Pow(10, -4 + 0.1 * i) / 2)];
            double[] lightness = [.. places.Prepend(0).Concat(places.Reverse().Select(t => 1 - t)).Select(t => LabOf(leg.At(t)).L)];
            return lightness.Skip(1).Zip(lightness, (next, before) => next >= before).All(climbs => climbs);
        });

    [Fact]
    public void Ordinary_ways_are_solved_evenly()
    {
        Recipe[][] ways =
        [
            [Recipe.Of(InventedPaints.TarredRope), Recipe.Of(InventedPaints.Kelp), Recipe.Of(InventedPaints.SeaLettuce)],
            [Recipe.Of(InventedPaints.Peat), Recipe.Of(InventedPaints.Driftwood), Recipe.Of(InventedPaints.GullWhite)],
            [Mix((InventedPaints.Peat, 1), (InventedPaints.Driftwood, 2)), Recipe.Of(InventedPaints.GullWhite)],
            [Recipe.Of(InventedPaints.TarredRope), Recipe.Of(InventedPaints.GullWhite)],
        ];
        foreach (var way in ways)
        {
            foreach (var steps in new[] { 2, 3, 6, 12 })
            {
                var ramp = Ramp(way, steps, 6);
                Assert.DoesNotContain(ramp.Remarks, remark => remark.StartsWith("Even if drops", StringComparison.Ordinal));
            }
        }
    }

    [Fact]
    public void Whole_drop_ramp_is_the_best_of_all_that_can_be_counted() =>
        Gen.Select(Through, Gen.Int[3, 5], Gen.Int[2, 5]).Sample((through, steps, drops) =>
        {
            var ramp = Ramp(through, steps, drops);
            if (ramp.Steps.Count < steps)
            {
                return;
            }

            var best = BruteForce(ramp.Steps[0], ramp.Steps[^1], through, steps, drops);
            Assert.Equal(best, ramp.Unevenness, 1e-9);
        }, iter: 200);

    // Every chain of every mixture a + b ≤ drops of neighbouring paints, in the order of the path, never darker.
    private static double BruteForce(RampStep first, RampStep last, Recipe[] through, int steps, int drops)
    {
        var nodes = through.Select(recipe => recipe.Parts[0].Paint).ToArray();
        if (nodes[0].Id != first.Prediction.Recipe.Parts[0].Paint.Id)
        {
            Array.Reverse(nodes);
        }

        Assert.Equal(nodes[^1].Id, last.Prediction.Recipe.Parts[0].Paint.Id);
        var places = new SortedDictionary<double, Lab>();
        for (var leg = 0; leg < nodes.Length - 1; leg++)
        {
            for (var a = 0; a <= drops; a++)
            {
                for (var b = 0; a + b <= drops; b++)
                {
                    if (a + b > 0)
                    {
                        Part[] parts = [.. new[] { new Part(nodes[leg], a), new Part(nodes[leg + 1], b) }.Where(part => part.Parts > 0)];
                        places[Math.Round(leg + (double)b / (a + b), 12)] = LabOf(new Recipe(parts));
                    }
                }
            }
        }

        var labs = places.Values.ToArray();
        var best = double.PositiveInfinity;
        void Walk(List<int> chain)
        {
            if (chain.Count == steps - 1)
            {
                if (labs[^1].L >= labs[chain[^1]].L - 1e-9)
                {
                    int[] all = [.. chain, labs.Length - 1];
                    best = Math.Min(best, Unevenness.Of([.. all.Skip(1).Zip(all, (to, from) => DeltaE2000.Between(labs[from], labs[to]))]));
                }

                return;
            }

            for (var next = chain[^1] + 1; next < labs.Length - 1; next++)
            {
                if (labs[next].L >= labs[chain[^1]].L - 1e-9)
                {
                    Walk([.. chain, next]);
                }
            }
        }

        Walk([0]);
        return best;
    }

    [Fact]
    public void Never_less_even_than_equal_parts() =>
        Gen.Select(Through.Where(through => through.Length == 2), Gen.Int[3, 6]).Sample((through, steps) =>
        {
            // Equal parts: 3:0, 2:1, 1:2, 0:3 and so on.
            var total = steps - 1;
            var (dark, light) = LabOf(through[0]).L <= LabOf(through[1]).L ? (through[0], through[1]) : (through[1], through[0]);
            var equal = Enumerable.Range(0, steps)
                .Select(i => LabOf(i == 0 ? dark : i == total ? light : new Recipe([new Part(dark.Parts[0].Paint, total - i), new Part(light.Parts[0].Paint, i)]))).ToArray();
            if (!equal.Select(lab => lab.L).Order().SequenceEqual(equal.Select(lab => lab.L)))
            {
                return;
            }

            var unevenness = Unevenness.Of([.. equal.Skip(1).Zip(equal, (to, from) => DeltaE2000.Between(from, to))]);
            Assert.True(Ramp(through, steps, total).Unevenness <= unevenness + 1e-9);
        }, iter: 200);

    [Fact]
    public void Two_browns_into_white_stay_a_skin_hue()
    {
        // Common practice, no source. Skin of all tones lies between red and yellow: hue angles of 25 to 85 degrees (from memory).
        var ramp = Ramp([Mix((InventedPaints.Peat, 1), (InventedPaints.Driftwood, 2)), Mix((InventedPaints.Peat, 1), (InventedPaints.Driftwood, 2), (InventedPaints.GullWhite, 5))], 5, 12);
        Assert.Equal(5, ramp.Steps.Count);
        Assert.All(ramp.Steps, step => Assert.InRange(step.Prediction.Appearance.Lab.HueDegrees!.Value, 25, 85));
    }

    [Fact]
    public void Mixture_as_an_end_is_stepped_in_all_drops_that_lie_on_the_way()
    {
        // From 2 + 1 to the second paint alone lie 1 + 1, 1 + 2 and so on: simpler than so many drops of the first mixture and so many of the second.
        var way = new RampLeg(Mix((InventedPaints.TarredRope, 2), (InventedPaints.Kelp, 1)), Recipe.Of(InventedPaints.Kelp));
        Assert.Equal(
            ["3 tarred rope + 2 kelp", "1 tarred rope + 1 kelp", "2 tarred rope + 3 kelp", "1 tarred rope + 2 kelp", "1 tarred rope + 3 kelp", "1 tarred rope + 4 kelp"],
            way.WholeDrops(5).Select(mixture => mixture.Recipe.ToString().Split(" (")[0]));
    }

    [Fact]
    public void Positions_of_whole_drops_on_a_leg_are_those_of_their_mixtures() =>
        Gen.Select(Gen.Int[1, 4], Gen.Int[1, 4], Gen.Int[0, 3], Gen.Int[1, 5]).Sample((a, b, c, d) =>
        {
            var from = Mix((InventedPaints.TarredRope, a), (InventedPaints.Kelp, b));
            var to = c == 0 ? Mix((InventedPaints.GullWhite, d)) : Mix((InventedPaints.Kelp, c), (InventedPaints.GullWhite, d));
            var leg = new RampLeg(from, to);
            var previous = 0.0;
            foreach (var (t, recipe) in leg.WholeDrops(12))
            {
                Assert.True(t > previous && t < 1);
                Assert.True(recipe.Total <= 12);
                Assert.Equal(0, DeltaE2000.Between(LabOf(leg.At(t)), LabOf(recipe)), 1e-9);
                previous = t;
            }
        }, iter: 50);

    [Fact]
    public void Bad_steps_are_named()
    {
        // One drop allows the ends alone, six allow a gap somewhere.
        var coarse = Ramp([Recipe.Of(InventedPaints.TarredRope), Recipe.Of(InventedPaints.GullWhite)], 6, 1);
        Assert.Equal(2, coarse.Steps.Count);
        Assert.Contains(coarse.Remarks, remark => remark.StartsWith("Only 2 of the 6 steps", StringComparison.Ordinal));

        var fine = Ramp([Recipe.Of(InventedPaints.TarredRope), Recipe.Of(InventedPaints.Kelp)], 40, 40);
        Assert.Contains(fine.Steps, step => step.Remarks.Any(remark => remark.StartsWith("Hardly", StringComparison.Ordinal)));

        var banded = Ramp([Recipe.Of(InventedPaints.TarredRope), Recipe.Of(InventedPaints.GullWhite)], 5, 3);
        Assert.Contains(banded.Steps, step => step.Remarks.Any(remark => remark.StartsWith("Bands", StringComparison.Ordinal)));
    }

    [Fact]
    public void Light_to_dark_is_turned_round_and_said()
    {
        var ramp = Ramp([Recipe.Of(InventedPaints.GullWhite), Recipe.Of(InventedPaints.TarredRope)], 4, 6);
        Assert.Equal("tarred-rope", ramp.Steps[0].Prediction.Recipe.Parts[0].Paint.Id);
        Assert.Contains(ramp.Remarks, remark => remark.StartsWith("Turned round", StringComparison.Ordinal));
    }

    [Fact]
    public void Bad_input_is_refused_in_words()
    {
        Recipe kelp = Recipe.Of(InventedPaints.Kelp), white = Recipe.Of(InventedPaints.GullWhite);
        Assert.Contains("two or more", Assert.Throws<ArgumentException>(() => Ramp([kelp], 4, 6)).Message, StringComparison.Ordinal);
        Assert.Contains("same mixture", Assert.Throws<ArgumentException>(() => Ramp([kelp, kelp, white], 4, 6)).Message, StringComparison.Ordinal);
        Assert.Contains("9 drops", Assert.Throws<ArgumentException>(() => Ramp([Mix((InventedPaints.Kelp, 4), (InventedPaints.Peat, 5)), white], 4, 6)).Message, StringComparison.Ordinal);
        Assert.Contains("pigment", Assert.Throws<ArgumentException>(() => Ramp([Recipe.Of(Paint.Medium), white], 4, 6)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => new RampOptions { Steps = 65 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new RampOptions { Drops = 0 });
    }

    [Fact]
    public void Twins_and_neutrals_are_answered()
    {
        // Two bottles of the same paint: nothing to step, and no NaN.
        var twin = InventedPaints.Kelp with { Id = "twin" };
        var ramp = Ramp([Recipe.Of(InventedPaints.Kelp), Recipe.Of(twin)], 4, 6);
        Assert.All(ramp.Steps.Concat(ramp.Undivided).Skip(1), step => Assert.False(double.IsNaN(step.StepDeltaE00 ?? 0)));
        Assert.Equal(0, ramp.Unevenness, 1e-6);

        // A way through neutrals whose hue is absent and a red that is darker than its white.
        var neutrals = new[] { "#000000", "#808080", "#ffffff", "#c03020" }.Select((hex, i) => Recipe.Of(InventedPaints.Of($"neutral {i}", hex))).ToArray();
        Assert.All(Ramp(neutrals, 6, 8).Steps, step => Assert.True(double.IsFinite(step.Prediction.Appearance.Lab.L + (step.StepDeltaE00 ?? 0))));

        var greys = Ramp([Recipe.Of(InventedPaints.Of("soot", "#000000")), Recipe.Of(InventedPaints.Of("foam", "#ffffff"))], 5, 6);
        Assert.All(greys.Steps, step => Assert.True(double.IsFinite(step.Prediction.Appearance.Lab.L)));
    }

    [Fact]
    public void Work_can_be_ended()
    {
        using var ended = new CancellationTokenSource();
        ended.Cancel();
        Assert.Throws<OperationCanceledException>(() => EvenRamp.Through([Recipe.Of(InventedPaints.Kelp), Recipe.Of(InventedPaints.GullWhite)], View.Default, new RampOptions(), ended.Token));
    }
}
