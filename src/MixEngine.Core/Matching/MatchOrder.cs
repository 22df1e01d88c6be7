namespace MixEngine.Core;

/// <summary>
/// Which of two recipes a painter would rather have. This is the one place that says so; it is a total order, so that the answer is one.
/// </summary>
/// <remarks>
/// With d* the smallest difference that any candidate reaches, compared from the first on:
/// <list type="number">
/// <item>the step of the difference: 0 up to d* + tolerance (an eye sees no difference between these), then one more for each 0.5 CIEDE2000 begun;</item>
/// <item>fewer paints;</item>
/// <item>fewer drops;</item>
/// <item>what one drop too many of its worst paint would make of the difference, in whole steps of 0.5;</item>
/// <item>the difference under the worst of the usual lamps (<see cref="Lamps"/>), in whole steps of 0.5;</item>
/// <item>the better known paints: the weaker of their grades of evidence, the stronger first;</item>
/// <item>the smaller difference, to the last digit;</item>
/// <item>the ids of the paints, ascending, one after the other, compared letter by letter; then their drops, the fewer first.</item>
/// </list>
/// </remarks>
internal readonly record struct MatchOrder(
    int Step, int Paints, int Drops, int HarmSteps, int LampSteps, Grade Weakest, double DeltaE00, Candidate Candidate) : IComparable<MatchOrder>
{
    /// <summary>A difference in whole steps that an eye sees.</summary>
    public static int WholeSteps(double deltaE00) => (int)Math.Ceiling(deltaE00 / MatchOptions.Unseen);

    /// <inheritdoc/>
    public int CompareTo(MatchOrder other)
    {
        var order = Step.CompareTo(other.Step);
        order = order != 0 ? order : Paints.CompareTo(other.Paints);
        order = order != 0 ? order : Drops.CompareTo(other.Drops);
        order = order != 0 ? order : HarmSteps.CompareTo(other.HarmSteps);
        order = order != 0 ? order : LampSteps.CompareTo(other.LampSteps);
        order = order != 0 ? order : other.Weakest.CompareTo(Weakest);
        order = order != 0 ? order : DeltaE00.CompareTo(other.DeltaE00);

        // Places on the shelf are in the order of the ids.
        for (var i = 0; i < Paints && order == 0; i++)
        {
            order = Candidate[i].Place.CompareTo(other.Candidate[i].Place);
        }

        for (var i = 0; i < Paints && order == 0; i++)
        {
            order = Candidate[i].Drops.CompareTo(other.Candidate[i].Drops);
        }

        return order;
    }
}
