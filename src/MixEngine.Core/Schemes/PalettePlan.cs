namespace MixEngine.Core;

/// <summary>The bottles to take, and what each further bottle would buy.</summary>
/// <param name="Bottles">Places of the chosen paints on the problem's shelf, ascending.</param>
/// <param name="FewestPossible">A number of bottles below which no palette meets every demand: equal to the count of <paramref name="Bottles"/> where the plan is proven.</param>
/// <param name="WorstDeltaE00">The largest difference left at any demand, CIEDE2000, without what no mix of the shelf can take away (<see cref="PaletteProblem.Avoidable"/>).</param>
/// <param name="Proven">Whether no palette of the problem is better: fewer bottles, then fewer not yet on the table, then a smaller worst difference.</param>
/// <param name="TradeOff">The smallest worst difference for each number of bottles around the chosen one, fewest first.</param>
public sealed record PalettePlan(IReadOnlyList<int> Bottles, int FewestPossible, double WorstDeltaE00, bool Proven, IReadOnlyList<TradeOffPoint> TradeOff)
{
    /// <summary>For each demand its option of the smallest difference within the bottles, the first of equals.</summary>
    public static PaletteOption? BestWithin(PaletteProblem problem, int demand, IReadOnlySet<int> bottles) =>
        problem.Options[demand].FirstOrDefault(option => option.Places.All(bottles.Contains));
}

/// <summary>What so many bottles can do.</summary>
/// <param name="Bottles">How many.</param>
/// <param name="WorstDeltaE00">The smallest worst difference over all demands, CIEDE2000, without what no mix of the shelf can take away.</param>
/// <param name="Proven">Whether no such number of bottles does better.</param>
public sealed record TradeOffPoint(int Bottles, double WorstDeltaE00, bool Proven);
