namespace MixEngine.Core;

/// <summary>A bottle that a scheme takes.</summary>
/// <param name="Paint">The paint.</param>
/// <param name="Uses">In how many pots it is, and for how many steps it is taken from the bottle.</param>
/// <param name="Drops">Drops of it in all.</param>
/// <param name="Ml">The same in ml.</param>
/// <param name="OnTable">Whether it stands on the table already.</param>
/// <param name="Without">What is lost if it runs dry; null for medium.</param>
/// <param name="Remarks">What is to be said of it, such as that too little is left.</param>
public sealed record BottleUse(Paint Paint, int Uses, double Drops, double Ml, bool OnTable, BottleLoss? Without, IReadOnlyList<string> Remarks);

/// <summary>What the rest of the shelf makes of a scheme without one bottle.</summary>
/// <param name="WorstDeltaE00">The largest difference from a target, CIEDE2000; null where a mix that was asked for by name needs it.</param>
/// <param name="Demand">Where.</param>
/// <param name="CouldGo">Whether every area stays within the tolerance, or where it is, to the eye.</param>
public sealed record BottleLoss(double? WorstDeltaE00, string Demand, bool CouldGo)
{
    /// <summary>Looks at every demand without a bottle.</summary>
    public static BottleLoss Of(PaletteProblem problem, int place)
    {
        var worst = (DeltaE00: (double?)0.0, Demand: "", Over: double.NegativeInfinity);
        for (var d = 0; d < problem.Demands.Count; d++)
        {
            var without = problem.Options[d].FirstOrDefault(option => !option.Places.Contains(place))?.DeltaE00;
            var over = (without ?? double.PositiveInfinity) - problem.Allowed(d);
            if (over > worst.Over)
            {
                worst = (without, problem.Demands[d].Key, over);
            }
        }

        return new BottleLoss(worst.DeltaE00, worst.Demand, worst.Over <= 1e-9);
    }
}
