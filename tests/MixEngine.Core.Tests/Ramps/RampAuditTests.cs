using CsCheck;
using MixEngine.Colorimetry;

namespace MixEngine.Core.Tests.Ramps;

public class RampAuditTests
{
    private static Recipe Mix(params (Paint Paint, double Parts)[] parts) => new(parts.Where(part => part.Parts > 0).Select(part => new Part(part.Paint, part.Parts)));

    private static RampAudit Audit(IReadOnlyList<Recipe> recipes, int drops = 24) =>
        RampAudit.Of(recipes, View.Default, new RampOptions { Drops = drops }, TestContext.Current.CancellationToken);

    private static Recipe[] Even(int steps, int drops, params Recipe[] through) =>
        [.. EvenRamp.Through(through, View.Default, new RampOptions { Steps = steps, Drops = drops }, TestContext.Current.CancellationToken).Steps.Select(step => step.Prediction.Recipe)];

    private static readonly Gen<Recipe[]> EvenlyMade =
        Gen.Select(Gen.Byte[0, 60], Gen.Byte[0, 60], Gen.Byte[0, 60], Gen.Byte[120, 200], Gen.Byte[120, 200], Gen.Byte[120, 200], Gen.Int[5, 8])
            .Select((r, g, b, r2, g2, b2, steps) => EvenRamp.Through(
                [Recipe.Of(InventedPaints.Of("dark", $"#{r:x2}{g:x2}{b:x2}")), Recipe.Of(InventedPaints.Of("light", $"#{r2:x2}{g2:x2}{b2:x2}"))],
                View.Default, new RampOptions { Steps = steps, Drops = 16 }))
            .Where(ramp => ramp.Unevenness < 0.1 && ramp.SmallestDeltaE00 > 2.5 && ramp.Steps.Count >= 5)
            .Select(ramp => ramp.Steps.Select(step => step.Prediction.Recipe).ToArray());

    [Fact]
    public void An_evenly_made_ramp_has_no_fault() =>
        EvenlyMade.Sample(ramp =>
        {
            var audit = Audit(ramp);
            Assert.Empty(audit.Faults);
            Assert.Null(audit.Mending);
            Assert.Equal(Enumerable.Range(1, ramp.Length), audit.Numbers);
        }, iter: 20);

    [Fact]
    public void A_planted_step_is_named() =>
        Gen.Select(EvenlyMade, Gen.Int[0, 100], Gen.Bool).Sample((ramp, where, up) =>
        {
            // Put one inner step almost on top of one of its neighbours.
            var planted = 1 + where % (ramp.Length - 2);
            var neighbour = up ? planted + 1 : planted - 1;
            var (from, to) = (ramp[planted], ramp[neighbour]);
            Part[] Scaled(Recipe recipe, double by) => [.. recipe.Parts.Select(part => part with { Parts = part.Parts / recipe.Total * by })];
            ramp[planted] = new Recipe(Scaled(from, 0.06).Concat(Scaled(to, 0.94)).GroupBy(part => part.Paint.Id).Select(same => new Part(same.First().Paint, same.Sum(part => part.Parts))));
            if (Difference(ramp[planted], to) > 0.3 * Difference(from, to))
            {
                return;
            }

            // Where its other side gapes it is to blame alone; where the way bends there, both of the twins are named.
            var audit = Audit(ramp);
            var gapes = Difference(ramp[planted], ramp[up ? planted - 1 : planted + 1]) > 1.5 * Difference(from, ramp[up ? planted - 1 : planted + 1]);
            Assert.NotEmpty(audit.Faults);
            Assert.All(audit.Faults, fault => Assert.True(
                fault.Step == planted + 1 || (!gapes && (fault.From == planted + 1 || fault.To == planted + 1)),
                $"{planted + 1}: " + string.Join(" ", audit.Faults.Select(f => f.Words))));
        }, iter: 30);

    private static double Difference(Recipe one, Recipe other) =>
        DeltaE2000.Between(Prediction.LabOf(one, View.Default), Prediction.LabOf(other, View.Default));

    [Fact]
    public void A_band_a_twin_and_a_step_back_are_told_apart()
    {
        var ramp = Even(6, 24, Recipe.Of(InventedPaints.Kelp), Recipe.Of(InventedPaints.SeaLettuce));

        var gap = Audit([.. ramp.Where((_, i) => i != 3)]);
        var band = Assert.Single(gap.Faults);
        Assert.Equal((RampFaultKind.Band, 3, 4, null), (band.Kind, band.From, band.To, band.Step));
        Assert.Contains(gap.Mending!.Alternatives, way => way.StartsWith("Add", StringComparison.Ordinal));

        var twice = Audit([.. ramp.Take(3), ramp[2], .. ramp.Skip(3)]);
        Assert.Contains(twice.Faults, fault => fault is { Kind: RampFaultKind.TooClose, From: 3, To: 4 });
        Assert.Contains(twice.Mending!.Alternatives, way => way.StartsWith("Leave out", StringComparison.Ordinal) || twice.Mending.FaultsLeft == 0);

        var swapped = Audit([ramp[0], ramp[1], ramp[3], ramp[2], ramp[4], ramp[5]]);
        Assert.Contains(swapped.Faults, fault => fault.Words.Contains("darker", StringComparison.Ordinal) || fault.Kind == RampFaultKind.Misplaced);
    }

    [Fact]
    public void Numbers_stay_as_given_from_light_to_dark()
    {
        var ramp = Even(6, 24, Recipe.Of(InventedPaints.Kelp), Recipe.Of(InventedPaints.SeaLettuce));
        ramp[2] = ramp[1];
        Array.Reverse(ramp);
        var audit = Audit(ramp);
        Assert.Equal([6, 5, 4, 3, 2, 1], audit.Numbers);
        Assert.Single(audit.Remarks);
        Assert.Contains(audit.Faults, fault => fault.Step == 4 || fault is { From: 5, To: 4 });
    }

    [Fact]
    public void The_mending_is_the_smallest_that_leaves_no_fault()
    {
        // Equal parts of a strong dark and a weak light: the usual way to a band.
        Recipe[] ramp = [Mix((InventedPaints.Kelp, 1)), Mix((InventedPaints.Kelp, 3), (InventedPaints.SeaLettuce, 1)), Mix((InventedPaints.Kelp, 1), (InventedPaints.SeaLettuce, 1)), Mix((InventedPaints.Kelp, 1), (InventedPaints.SeaLettuce, 5)), Mix((InventedPaints.SeaLettuce, 1))];
        var audit = Audit(ramp);
        Assert.NotEmpty(audit.Faults);
        var mending = audit.Mending!;
        Assert.Equal(0, mending.FaultsLeft);
        Assert.Empty(Audit(mending.Steps).Faults);
        Assert.Equal(mending.Drops, mending.Changes.Sum(change => change.Drops));
        Assert.All(mending.Changes, change => Assert.Equal(change.To, mending.Steps[change.Step - 1]));

        // Nothing smaller leaves no fault: try every change of fewer drops, of one step and of two.
        foreach (var smaller in Changed(ramp, mending.Drops - 1))
        {
            Assert.NotEmpty(new RampFaults([.. smaller.Select(recipe => Prediction.LabOf(recipe, View.Default))], [1, 1, 1, 1]).Find(place => place));
        }
    }

    private static IEnumerable<Recipe[]> Changed(Recipe[] ramp, int drops)
    {
        IEnumerable<Recipe> Of(Recipe recipe, int by)
        {
            double At(Paint paint) => recipe.Parts.Where(part => part.Paint.Id == paint.Id).Sum(part => part.Parts);
            for (var a = -by; a <= by; a++)
            {
                var b = by - Math.Abs(a);
                foreach (var sign in b == 0 ? new[] { 1 } : [1, -1])
                {
                    var (kelp, lettuce) = (At(InventedPaints.Kelp) + a, At(InventedPaints.SeaLettuce) + sign * b);
                    if (kelp >= 0 && lettuce >= 0 && kelp + lettuce is > 0 and <= 24)
                    {
                        yield return Mix((InventedPaints.Kelp, kelp), (InventedPaints.SeaLettuce, lettuce));
                    }
                }
            }
        }

        var cuts = from a in Enumerable.Range(0, drops + 1) from b in Enumerable.Range(0, drops + 1 - a) from c in Enumerable.Range(0, drops + 1 - a - b) select (a, b, c);
        return from cut in cuts
               from one in Of(ramp[1], cut.a)
               from two in Of(ramp[2], cut.b)
               from three in Of(ramp[3], cut.c)
               select new[] { ramp[0], one, two, three, ramp[4] };
    }

    [Fact]
    public void What_the_colour_does_is_noted()
    {
        // Black into yellow is green on the way (common practice, no source).
        var yellow = InventedPaints.Of("gorse", "#ffd800");
        var greening = Audit(Even(6, 12, Recipe.Of(InventedPaints.TarredRope), Recipe.Of(yellow)));
        Assert.Contains(greening.Notes, note => note.Kind == RampColorNoteKind.Greening);

        // White chalks a red (common practice, no source).
        var red = InventedPaints.Of("crab", "#a02018");
        var chalk = Audit(Even(6, 24, Recipe.Of(red), Recipe.Of(InventedPaints.GullWhite)));
        Assert.Contains(chalk.Notes, note => note.Kind == RampColorNoteKind.Chalk);

        // Complements give mud (common practice, no source).
        var mud = Audit(Even(5, 24, Recipe.Of(InventedPaints.Of("purple sail", "#4a2060")), Recipe.Of(yellow)));
        Assert.Contains(mud.Notes, note => note is { Kind: RampColorNoteKind.Mud, Step: 2 });
        Assert.Contains(mud.Notes, note => note.Kind == RampColorNoteKind.HueTurn);

        // Greys do nothing.
        Assert.Empty(Audit(Even(5, 24, Recipe.Of(InventedPaints.Of("soot", "#202020")), Recipe.Of(InventedPaints.Of("fog", "#c0c0c0")))).Notes);
    }

    [Fact]
    public void Between_two_lies_one_more()
    {
        var between = InBetween.Of(Recipe.Of(InventedPaints.Kelp), Recipe.Of(InventedPaints.SeaLettuce), View.Default, new RampOptions { Drops = 24 }, TestContext.Current.CancellationToken)!;
        Assert.Equal(between.FromDarkerDeltaE00, between.ToLighterDeltaE00, 0.5);
        Assert.Null(InBetween.Of(Recipe.Of(InventedPaints.Kelp), Recipe.Of(InventedPaints.SeaLettuce), View.Default, new RampOptions { Drops = 1 }, TestContext.Current.CancellationToken));
    }

    [Fact]
    public void Steps_of_very_many_paints_are_answered()
    {
        // Two dozen paints in each step, twenty times over: all ways to change a few drops of them would be millions.
        Paint[] paints = [.. Enumerable.Range(0, 24).Select(i => InventedPaints.Of($"shell {i}", $"#{40 + 6 * i:x2}{30 + 5 * i:x2}{20 + 7 * i:x2}"))];
        Recipe[] ramp = [.. Enumerable.Range(0, 20).Select(step => new Recipe(paints.Select((paint, i) => new Part(paint, 1 + step * i % 7))))];
        Assert.Equal(20, Audit(ramp).Steps.Count);
    }

    [Fact]
    public void Too_few_and_too_many_are_refused()
    {
        Assert.Throws<ArgumentException>(() => Audit([Recipe.Of(InventedPaints.Kelp)]));
        Assert.Throws<ArgumentException>(() => Audit([.. Enumerable.Repeat(Recipe.Of(InventedPaints.Kelp), 65)]));
        Assert.Throws<ArgumentException>(() => Audit([Recipe.Of(InventedPaints.Kelp), Recipe.Of(Paint.Medium)]));
    }
}
