using Google.OrTools.Sat;
using MixEngine.Core;

namespace MixEngine.Planning;

/// <summary>Finds the fewest bottles that meet every demand of a scheme, by CP-SAT.</summary>
/// <remarks>
/// In this order: fewest bottles; fewest that are not on the table yet; smallest worst difference; smallest sum of differences. Each is settled before the
/// next is asked. The answer is deterministic: one thread, a fixed amount of work.
/// </remarks>
public static class PalettePlanner
{
    /// <summary>How many bottles fewer and more the trade-off looks at.</summary>
    public const int TradeOffReach = 3;

    // The sum takes every option into one relaxation, which of larger models takes hundreds of megabytes and proves nothing in time.
    private const int MostRelaxed = 10_000;

    // A point of the trade-off may take so much of the work that the plan itself may.
    private const double TradeOffShare = 0.25;

    /// <summary>Plans the palette.</summary>
    /// <param name="problem">The demands and their options.</param>
    /// <param name="work">Deterministic time that one question may take, about a second each.</param>
    /// <param name="cancellation">Ends the work.</param>
    public static PalettePlan Plan(PaletteProblem problem, double work = 4, CancellationToken cancellation = default)
    {
        // Fewest bottles, those on the table first.
        var model = new PaletteModel(problem, problem.Allowed);
        var cost = model.BottleCost();
        var bottles = GreedyPalette.Of(problem, problem.Allowed).ToArray();
        model.Hint(bottles);
        model.Minimize(cost);
        var fewest = model.Solve(work, relaxed: true, cancellation);
        var proven = fewest.Status == CpSolverStatus.Optimal;
        bottles = fewest.Bottles.Length > 0 ? fewest.Bottles : bottles;
        var fewestPossible = (int)Math.Min(bottles.Length, (fewest.Bound + model.BottleWeight - 1) / model.BottleWeight);

        // Among as many, the smallest worst difference; among those, the smallest sum.
        long costOf = bottles.Sum(p => model.BottleWeight + (problem.OnTable[p] ? 0 : 1));
        model.AtMost(cost, costOf);
        var worst = model.Worst();
        var least = Better(model, worst, bottles, work, relaxed: true, cancellation, ref proven);
        bottles = least.Bottles;
        model.AtMost(worst, PaletteModel.Grains(WorstOf(problem, bottles)));
        bottles = Better(model, model.Sum(), bottles, work, relaxed: model.Options <= MostRelaxed, cancellation, ref proven).Bottles;
        bottles = Needed(problem, bottles);

        return new PalettePlan(bottles, fewestPossible, WorstOf(problem, bottles), proven, TradeOff(problem, bottles, work * TradeOffShare, cancellation));
    }

    /// <summary>The largest avoidable difference that a palette leaves at any demand, CIEDE2000; infinite where one cannot be met at all.</summary>
    public static double WorstOf(PaletteProblem problem, IReadOnlyCollection<int> bottles)
    {
        var set = bottles.ToHashSet();
        return Enumerable.Range(0, problem.Demands.Count).Max(d => PalettePlan.BestWithin(problem, d, set) is { } option ? problem.Avoidable(d, option.DeltaE00) : double.PositiveInfinity);
    }

    private static (int[] Bottles, bool Found) Better(PaletteModel model, LinearExpr objective, int[] bottles, double work, bool relaxed, CancellationToken cancellation, ref bool proven)
    {
        model.Hint(bottles);
        model.Minimize(objective);
        var (status, found, _, _) = model.Solve(work, relaxed, cancellation);
        proven &= status == CpSolverStatus.Optimal;
        return found.Length > 0 ? (found, true) : (bottles, false);
    }

    // A bottle that no best option uses is not needed, where the search ended early.
    private static int[] Needed(PaletteProblem problem, int[] bottles)
    {
        var set = bottles.ToHashSet();
        return [.. Enumerable.Range(0, problem.Demands.Count).SelectMany(d => PalettePlan.BestWithin(problem, d, set)!.Places).Distinct().Order()];
    }

    private static TradeOffPoint[] TradeOff(PaletteProblem problem, int[] chosen, double work, CancellationToken cancellation)
    {
        var points = new List<TradeOffPoint>();
        var last = chosen;
        for (var count = Math.Max(1, chosen.Length - TradeOffReach); count <= Math.Min(problem.Paints.Count, chosen.Length + TradeOffReach); count++)
        {
            // The smallest worst difference of so many bottles, whatever the tolerance says.
            var model = new PaletteModel(problem, _ => double.PositiveInfinity);
            var worst = model.Worst();
            model.AtMost(model.Bottles(), count);
            model.Hint(count >= last.Length ? last : []);
            model.Minimize(worst);
            var (status, bottles, _, _) = model.Solve(work, relaxed: true, cancellation);
            if (bottles.Length > 0)
            {
                points.Add(new TradeOffPoint(count, WorstOf(problem, bottles), status == CpSolverStatus.Optimal));
                last = bottles;
            }
        }

        return [.. points];
    }
}
