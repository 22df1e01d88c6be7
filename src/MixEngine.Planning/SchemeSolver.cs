using MixEngine.Core;

namespace MixEngine.Planning;

/// <summary>Solves a scheme: all areas together from the fewest bottles.</summary>
public static class SchemeSolver
{
    /// <summary>Solves a scheme from its own shelf.</summary>
    /// <param name="input">The scheme and its paints.</param>
    /// <param name="progress">Told what is being done.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <exception cref="ArgumentException">The scheme cannot be solved as it stands; the message names the area.</exception>
    public static SchemePlan Solve(SchemeInput input, Action<SchemeProgress>? progress = null, CancellationToken cancellation = default) =>
        Solve(input, SchemeTasks.Of(input), progress, cancellation);

    /// <summary>Solves the same scheme from somebody else's shelf: every colour of the plan becomes a target there.</summary>
    /// <param name="plan">The plan from the own shelf.</param>
    /// <param name="shelf">The other paints.</param>
    /// <param name="progress">Told what is being done.</param>
    /// <param name="cancellation">Ends the work.</param>
    public static SchemePlan SolveElsewhere(SchemePlan plan, IReadOnlyList<Paint> shelf, Action<SchemeProgress>? progress = null, CancellationToken cancellation = default)
    {
        var moved = new Dictionary<Demand, Demand>(ReferenceEqualityComparer.Instance);
        var glazed = plan.Areas.Where(area => area.Area.Role == AreaRole.Glaze).ToDictionary(area => area.Key, area => area.Layers[^1].Appearance.Lab);
        AreaTask Moved(AreaTask task) => task with { Demands = [.. task.Demands.Select(demand => moved.TryGetValue(demand, out var known) ? known : moved[demand] = MovedDemand(task, demand))] };
        Demand MovedDemand(AreaTask task, Demand demand) => demand with { Given = null, Aim = glazed.TryGetValue(task.Key, out var reached) ? reached : demand.Aim, Glaze = demand.Glaze is { } goal ? goal with { Medium = null } : null };
        return Solve(plan.Input with { Shelf = shelf, OnTable = new HashSet<string>(), Buyable = [] }, [.. plan.Tasks.Select(Moved)], progress, cancellation);
    }

    private static SchemePlan Solve(SchemeInput input, IReadOnlyList<AreaTask> tasks, Action<SchemeProgress>? progress, CancellationToken cancellation)
    {
        // Areas that share their mixes share their demands.
        var demands = tasks.SelectMany(task => task.Demands).Distinct<Demand>(ReferenceEqualityComparer.Instance).ToArray();
        progress?.Invoke(new SchemeProgress("looking for mixes", 0, tasks.Count));
        var problem = PaletteOptions.Of(input, demands, cancellation);
        progress?.Invoke(new SchemeProgress("choosing bottles", 0, tasks.Count));
        var palette = PalettePlanner.Plan(problem, cancellation: cancellation);
        progress?.Invoke(new SchemeProgress("painting steps", 0, tasks.Count));
        return PlanBuilder.Build(input, tasks, problem, palette, done => progress?.Invoke(new SchemeProgress("painting steps", done, tasks.Count)), cancellation);
    }
}

/// <summary>How far the work on a scheme has come.</summary>
/// <param name="Doing">What is being done.</param>
/// <param name="Done">Areas finished.</param>
/// <param name="Of">Areas in all.</param>
public sealed record SchemeProgress(string Doing, int Done, int Of);
