using CsCheck;
using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Planning.Tests;

public class PalettePlannerTests
{
    private static readonly Gen<PaletteProblem> SmallProblem =
        Gen.Select(Gen.Int[3, 8], Coast.AnyDemand.Array[1, 6], Gen.Int[1, 3], Gen.Int[2, 4], Gen.Double[1, 8], Gen.Int[0, 3], Gen.Int[0, 11])
            .Select((paints, demands, perMix, drops, tolerance, table, from) =>
            {
                Paint[] shelf = [.. Enumerable.Range(from, paints).Select(i => Coast.Shelf[i % Coast.Shelf.Count])];
                return ProblemOf(Coast.Asking(shelf, perMix, drops, tolerance, [.. shelf.Take(table).Select(paint => paint.Id)]), demands);
            });

    /// <summary>The bar: on small cases the plan is what looking at every palette finds.</summary>
    [Fact]
    public void The_plan_equals_the_best_of_all_palettes() => SmallProblem.Sample(
        problem =>
        {
            var plan = PlanOf(problem);
            var best = EveryPalette(problem).Where(palette => Meets(problem, palette)).Min(palette => OrderOf(problem, palette))!;
            Assert.True(plan.Proven);
            Assert.Equal(best, OrderOf(problem, plan.Bottles));
            Assert.Equal(plan.Bottles.Count, plan.FewestPossible);
            Assert.All(plan.TradeOff, point =>
            {
                var least = EveryPalette(problem).Where(palette => palette.Length <= point.Bottles).Min(palette => PalettePlanner.WorstOf(problem, palette));
                Assert.Equal(least, point.WorstDeltaE00, 3 * PaletteModel.Grain);
            });
        },
        iter: 60);

    [Fact]
    public void Options_of_a_small_shelf_are_those_of_every_recipe() => Gen.Select(Coast.AnyDemand, Gen.Int[1, 3], Gen.Int[1, 5]).Sample(
        (demand, perMix, drops) =>
        {
            var shelf = Coast.Shelf.Take(6).ToArray();
            var input = Coast.Asking(shelf, perMix, drops, tolerance: 3);
            var problem = ProblemOf(input, [demand with { Drops = drops }]);
            Assert.True(problem.Complete);

            // Each set of paints: its best recipe, by the prediction that everybody else asks.
            var options = problem.Options[0].ToDictionary(option => string.Join(' ', option.Places));
            foreach (var set in EveryPalette(problem).Where(set => set.Length <= perMix))
            {
                var differences = Recipes(set.Select(place => problem.Paints[place]).ToArray(), drops)
                    .Select(recipe => DeltaE2000.Between(demand.Aim, Prediction.LabOf(recipe, View.Default))).ToArray();
                if (differences.Length == 0 || differences.Min() > PaletteOptions.RadiusFor(3) - 1e-6)
                {
                    continue;
                }

                // An option of the set, unless a part of the set does as well; within what an eye does not see fewer drops may win.
                var parts = problem.Options[0].Where(option => option.Places.All(set.Contains)).ToArray();
                Assert.NotEmpty(parts);
                Assert.InRange(parts[0].DeltaE00, 0, differences.Min() + MatchOptions.Unseen + 1e-6);
            }

            Assert.All(problem.Options[0], option => Assert.Equal(DeltaE2000.Between(demand.Aim, Prediction.LabOf(option.Recipe, View.Default)), option.DeltaE00, 6));
        },
        iter: 40);

    [Fact]
    public void Bottles_on_the_table_are_taken_where_nothing_is_lost_by_it()
    {
        // Two look-alikes: either serves.
        Paint[] shelf = [Coast.Of("peat", "#5a3a28"), Coast.Of("old peat", "#5a3a29")];
        Demand[] demands = [new("brown", Prediction.LabOf(Recipe.Of(shelf[0]), View.Default))];
        foreach (var there in shelf)
        {
            var problem = ProblemOf(Coast.Asking(shelf, 1, 1, 2, there.Id), demands);
            Assert.Equal(there.Id, problem.Paints[Assert.Single(PlanOf(problem).Bottles)].Id);
        }
    }

    [Fact]
    public void A_ceiling_of_chroma_holds_for_solved_mixes()
    {
        var demand = new Demand("dull", new Lab(60, 5, 30)) { ChromaAtMost = 25 };
        var problem = ProblemOf(Coast.Asking(Coast.Shelf, 3, 6, 3), [demand]);
        Assert.All(problem.Options[0], option => Assert.InRange(Prediction.LabOf(option.Recipe, View.Default).Chroma, 0, 25 + 1e-6));
    }

    [Fact]
    public void The_same_question_has_the_same_answer()
    {
        Demand[] demands = [.. Enumerable.Range(0, 30).Select(i => new Demand($"{i}", new Lab(20 + 2 * i, 20 * Math.Sin(i), 25 * Math.Cos(1.7 * i))))];
        var problem = ProblemOf(Coast.Asking(Coast.Shelf, 3, 6, 3), demands);
        var again = ProblemOf(Coast.Asking([.. Coast.Shelf.Reverse()], 3, 6, 3), demands);
        Assert.Equal(PlanOf(problem).Bottles, PlanOf(again).Bottles);
    }

    private static PaletteProblem ProblemOf(SchemeInput input, IReadOnlyList<Demand> demands) => PaletteOptions.Of(input, demands, TestContext.Current.CancellationToken);

    private static PalettePlan PlanOf(PaletteProblem problem) => PalettePlanner.Plan(problem, cancellation: TestContext.Current.CancellationToken);

    private static (int, int, long, long) OrderOf(PaletteProblem problem, IReadOnlyCollection<int> palette)
    {
        var set = palette.ToHashSet();
        var differences = Enumerable.Range(0, problem.Demands.Count).Select(d => PalettePlan.BestWithin(problem, d, set)!.DeltaE00).ToArray();
        return (
            palette.Count, palette.Count(p => !problem.OnTable[p]),
            differences.Select((difference, d) => PaletteModel.Grains(problem.Avoidable(d, difference))).Max(),
            differences.Sum(PaletteModel.Grains));
    }

    private static bool Meets(PaletteProblem problem, int[] palette)
    {
        var set = palette.ToHashSet();
        return Enumerable.Range(0, problem.Demands.Count).All(d => PalettePlan.BestWithin(problem, d, set) is { } option && option.DeltaE00 <= problem.Allowed(d) + 1e-12);
    }

    private static IEnumerable<int[]> EveryPalette(PaletteProblem problem) =>
        Enumerable.Range(1, (1 << problem.Paints.Count) - 1).Select(bits => Enumerable.Range(0, problem.Paints.Count).Where(p => (bits >> p & 1) == 1).ToArray());

    private static IEnumerable<Recipe> Recipes(Paint[] paints, int drops)
    {
        IEnumerable<int[]> Shares(int left, int count) => count == 0
            ? [[]]
            : from first in Enumerable.Range(1, Math.Max(0, left - count + 1)) from rest in Shares(left - first, count - 1) select (int[])[first, .. rest];
        return Shares(drops, paints.Length).Select(share => new Recipe(paints.Zip(share, (paint, parts) => new Part(paint, parts))));
    }
}
