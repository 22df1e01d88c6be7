using System.Globalization;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>From a chosen palette to steps, mixes and amounts.</summary>
public static class PlanBuilder
{
    /// <summary>Builds the plan.</summary>
    /// <param name="input">What was asked.</param>
    /// <param name="tasks">What each area asked of the palette.</param>
    /// <param name="problem">The palette problem of their demands.</param>
    /// <param name="palette">Its answer.</param>
    /// <param name="areaDone">Told after each area with the number done.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <exception cref="ArgumentException">A mix that was asked for cannot be used; the message names the area.</exception>
    public static SchemePlan Build(
        SchemeInput input, IReadOnlyList<AreaTask> tasks, PaletteProblem problem, PalettePlan palette, Action<int>? areaDone = null, CancellationToken cancellation = default)
    {
        // Within the palette the best mix of each demand, by whatever three of its bottles.
        var bottles = palette.Bottles.Select(place => problem.Paints[place]).ToArray();
        var within = PaletteOptions.Of(input with { Shelf = bottles }, problem.Demands, cancellation);
        var chosen = new Dictionary<Demand, PaletteOption>(ReferenceEqualityComparer.Instance);
        for (var d = 0; d < problem.Demands.Count; d++)
        {
            chosen.Add(problem.Demands[d], Preferred(within.Options[d], problem.Tolerance));
        }

        // Areas that hide first, glazes after what they lie over; areas are independent, so all cores help.
        var areas = new AreaPlan[tasks.Count];
        var done = 0;
        void Each(Func<AreaTask, bool> which, Func<AreaTask, AreaPlan> plan) => Parallel.For(0, tasks.Count, new ParallelOptions { CancellationToken = cancellation, TaskScheduler = null }, i =>
        {
            if (which(tasks[i]))
            {
                areas[i] = Named(tasks[i], plan);
                areaDone?.Invoke(Interlocked.Increment(ref done));
            }
        });
        Each(task => task.Area.Role != AreaRole.Glaze, task => Hiding(input.Scheme, task, chosen, cancellation));
        var byKey = areas.Where(area => area is not null).ToDictionary(area => area.Key);
        Each(task => task.Area.Role == AreaRole.Glaze, task => Glazing(input.Scheme, task, chosen, byKey[$"{task.Figure.Name} / {task.Area.Over}"]));

        var mixes = MixesOf(input.Scheme, areas);
        var uses = BottlesOf(input, problem, areas, mixes);
        var targets = problem.Demands.Where(demand => demand is { Given: null, Glaze: null }).ToArray();
        return new SchemePlan(
            input, tasks, problem, palette, areas, mixes, uses,
            [.. problem.Paints.Where(paint => uses.All(use => use.Paint.Id != paint.Id))],
            targets.Length > 0 ? NextBottle.Find(input.Buyable, bottles, targets, [.. targets.Select(demand => chosen[demand].DeltaE00)], input.Scheme, cancellation) : [],
            SchemeCautions.Of(input.Scheme, uses.Select(use => use.Paint)), [.. Remarked(problem, palette)]);
    }

    // The painter's order: what an eye does not tell apart is decided by fewer paints, then fewer drops.
    private static PaletteOption Preferred(IReadOnlyList<PaletteOption> options, double tolerance)
    {
        var best = options[0].DeltaE00;
        return options
            .Where(option => option.DeltaE00 <= Math.Max(best, Math.Min(best + MatchOptions.Unseen, tolerance)))
            .OrderBy(option => option.Places.Length).ThenBy(option => option.Recipe.Total).ThenBy(option => option.DeltaE00).First();
    }

    private static AreaPlan Named(AreaTask task, Func<AreaTask, AreaPlan> plan)
    {
        try
        {
            return plan(task);
        }
        catch (ArgumentException fault)
        {
            var line = task.Area.Lines.Table > 0 ? string.Create(CultureInfo.InvariantCulture, $" (line {task.Area.Lines.Table})") : "";
            throw new ArgumentException($"{task.Key}{line}: {fault.Message}", fault);
        }
    }

    private static AreaPlan Hiding(Scheme scheme, AreaTask task, Dictionary<Demand, PaletteOption> chosen, CancellationToken cancellation)
    {
        var nodes = task.Demands.Select(demand => (Demand: demand, Option: chosen[demand])).ToArray();
        var remarks = new List<string>(task.Remarks);
        var steps = task.Area.Role == AreaRole.Layers ? Ramp(scheme, task, nodes, remarks, cancellation) : [(Blend.Of(nodes[0].Option.Recipe), (double?)null, [])];
        var layers = steps.Select((step, i) =>
        {
            var aim = TargetAt(nodes, i, steps.Count);
            var prediction = Prediction.Of(step.Blend.Recipe, scheme.View);
            return new LayerPlan(
                LayerPlace.Name(i, steps.Count, task.Area.Role), WhereOf(task.Area, i, steps.Count), LayerPlace.Coverage(i, steps.Count), i == 0 ? task.Area.Coats : 1,
                step.Blend, prediction.Appearance, prediction.ExpectedError,
                aim, aim is { } target ? DeltaE2000.Between(target, prediction.Appearance.Lab) : null, step.StepDeltaE00, [], step.Remarks);
        }).ToArray();
        return Finished(scheme, task, layers, nodes, remarks);
    }

    private static AreaPlan Finished(Scheme scheme, AreaTask task, LayerPlan[] layers, (Demand Demand, PaletteOption Option)[] nodes, List<string> remarks)
    {
        var solved = nodes.Where(node => node.Demand.Given is null).ToArray();
        double? worst = solved.Length > 0 ? solved.Max(node => node.Option.DeltaE00) : null;
        var reached = worst is not { } w || w <= scheme.Tolerance + 1e-9;
        if (!reached)
        {
            var missed = solved.MaxBy(node => node.Option.DeltaE00);
            var lab = missed.Demand.Glaze is null ? Prediction.LabOf(missed.Option.Recipe, scheme.View) : layers[^1].Appearance.Lab;
            remarks.Add(string.Create(CultureInfo.InvariantCulture, $"Not reached: {Shortfall.Of(missed.Demand.Aim, lab).Words}, {worst:0.0} dE00 from the target; {scheme.Tolerance:0.0} was asked for."));
        }

        return new AreaPlan(task.Figure, task.Area, layers, task.SameAs?.Key, worst, reached, remarks);
    }

    private static Lab? TargetAt((Demand Demand, PaletteOption Option)[] nodes, int step, int steps)
    {
        // Only the ends of a ramp are its nodes for sure.
        var node = step == 0 ? nodes[0] : step == steps - 1 ? nodes[^1] : default;
        return node.Demand is { Given: null } demand ? demand.Aim : null;
    }

    private static IReadOnlyList<(Blend Blend, double? StepDeltaE00, IReadOnlyList<string> Remarks)> Ramp(
        Scheme scheme, AreaTask task, (Demand Demand, PaletteOption Option)[] nodes, List<string> remarks, CancellationToken cancellation)
    {
        // Each mix stands in a pot, which counts as a paint; the same one twice in a row is one node.
        var pots = new Dictionary<string, Recipe>();
        var through = new List<Recipe>();
        foreach (var (_, option) in nodes)
        {
            var paint = Blend.AsPaint(option.Recipe);
            if (through.Count == 0 || through[^1].Parts[0].Paint.Id != paint.Id)
            {
                pots[paint.Id] = option.Recipe.Parts.Count == 1 ? Recipe.Of(paint) : option.Recipe;
                through.Add(Recipe.Of(paint));
            }
        }

        if (through.Count == 1)
        {
            remarks.Add("The palette has the same mix for its dark and its light end: one step instead of a ramp.");
            return [(Blend.Of(pots.Values.Single()), null, [])];
        }

        // Even steps in whole parts of the pots.
        var ramp = EvenRamp.Through(through, scheme.View, new RampOptions { Steps = task.Area.Steps, Drops = task.Area.Drops ?? scheme.Drops }, cancellation);
        remarks.AddRange(ramp.Remarks);
        return [.. ramp.Steps.Select(step => (new Blend([.. step.Prediction.Recipe.Parts.Select(part => new BlendPart(pots[part.Paint.Id], part.Parts))]), step.StepDeltaE00, step.Remarks))];
    }

    private static AreaPlan Glazing(Scheme scheme, AreaTask task, Dictionary<Demand, PaletteOption> chosen, AreaPlan beneath)
    {
        var demand = task.Demands[0];
        var option = chosen[demand];
        var coats = new Coats(option.Recipe, option.Coats);
        var middle = beneath.Layers[beneath.Layers.Count / 2];
        var glaze = Glaze.Over(PaintedSurface.OfHidingLayer(middle.Recipe), coats, scheme.View);
        var last = glaze.Coats[^1];
        Lab? aim = demand.Given is null ? demand.Aim : null;
        double? difference = aim is { } target ? DeltaE2000.Between(target, last.Appearance.Lab) : null;
        var layer = new LayerPlan(
            LayerPlace.Name(0, 1, AreaRole.Glaze), WhereOf(task.Area, 0, 1), 1, option.Coats, Blend.Of(option.Recipe), last.Appearance, last.ExpectedError, aim, difference, last.TotalDeltaE00,
            [.. beneath.Layers.Select(step => coats.Over(PaintedSurface.OfHidingLayer(step.Recipe).Stack()).Last().Under(scheme.View))],
            glaze.Remarks);
        return Finished(scheme, task, [layer], [(demand, option with { DeltaE00 = difference ?? 0 })], [.. task.Remarks]);
    }

    private static string WhereOf(Area area, int step, int steps) => area.Where.Count switch
    {
        0 => LayerPlace.Words(step, steps, area.Role),
        1 when area.Role == AreaRole.Layers => $"{area.Where[0]}: {LayerPlace.Words(step, steps, area.Role)}",
        1 => area.Where[0],
        _ => area.Where[Math.Min(step, area.Where.Count - 1)],
    };

    // Each pot once, as large as all its uses together; what comes straight from a bottle needs none.
    private static SchemeMix[] MixesOf(Scheme scheme, AreaPlan[] areas) =>
        [.. PoursOf(scheme, areas).Where(pour => pour.Pot.Parts.Count > 1)
            .GroupBy(pour => SchemeMix.KeyOf(pour.Pot))
            .Select((same, i) => new SchemeMix(i + 1, Pot.Of(same.First().Pot, same.Sum(pour => pour.Ml), scheme.View), [.. same.Select(pour => (pour.Area, pour.Layer))]))];

    private static IEnumerable<(AreaPlan Area, LayerPlan Layer, Recipe Pot, double Ml)> PoursOf(Scheme scheme, AreaPlan[] areas) =>
        from area in areas
        from layer in area.Layers
        let ml = PaintVolume.Ml(area.Figure.SurfaceCm2, area.Figure.ShareOf(area.Area) * layer.Coverage, layer.Coats, area.Figure.Count, scheme.Surplus)
        let total = layer.Blend.Parts.Sum(part => part.Ml)
        from part in layer.Blend.Parts
        select (area, layer, part.Pot, ml * part.Ml / total);

    private static BottleUse[] BottlesOf(SchemeInput input, PaletteProblem problem, AreaPlan[] areas, SchemeMix[] mixes)
    {
        var places = problem.Paints.Select((paint, place) => (paint.Id, place)).ToDictionary(pair => pair.Id, pair => pair.place);
        var potted = from mix in mixes from part in mix.Pot.Scaled.Parts select (part.Paint, Drops: part.Parts);
        var straight = from pour in PoursOf(input.Scheme, areas)
                       where pour.Pot.Parts.Count == 1
                       let paint = pour.Pot.Parts[0].Paint
                       select (Paint: paint, Drops: Math.Ceiling(pour.Ml * (paint.DropsPerMl ?? Paint.ConventionalDropsPerMl) - 1e-9));
        return [.. potted.Concat(straight).GroupBy(use => use.Paint.Id)
            .Select(same =>
            {
                var paint = same.First().Paint;
                var drops = same.Sum(use => use.Drops);
                var ml = drops / (paint.DropsPerMl ?? Paint.ConventionalDropsPerMl);
                string[] remarks = paint.MlLeft is { } left && left < ml
                    ? [string.Create(CultureInfo.InvariantCulture, $"Too little is left: {ml:0.0} ml are needed, {left:0.0} ml are there.")]
                    : [];
                return new BottleUse(paint, same.Count(), drops, ml, input.OnTable.Contains(paint.Id), places.TryGetValue(paint.Id, out var place) ? BottleLoss.Of(problem, place) : null, remarks);
            })
            .OrderBy(use => use.Paint.Kind).ThenByDescending(use => use.Uses).ThenBy(use => use.Paint.Id, StringComparer.Ordinal)];
    }

    private static IEnumerable<string> Remarked(PaletteProblem problem, PalettePlan palette)
    {
        yield return $"Looked at {problem.LookedAt}.";
        yield return palette.Proven
            ? problem.Complete ? "No smaller palette meets the scheme: proven." : "No smaller palette of what was looked at meets the scheme: proven."
            : string.Create(CultureInfo.InvariantCulture, $"The search for fewer bottles was ended: {palette.FewestPossible} is the fewest that could still be possible{(problem.Complete ? "" : " with what was looked at")}, {palette.Bottles.Count} were found.");
        var missed = Enumerable.Range(0, problem.Demands.Count).Count(problem.OutOfReach);
        if (missed > 0)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"{missed} of {problem.Demands.Count} colours cannot be reached within {problem.Tolerance:0.0} dE00 by any mix of this shelf; the nearest was taken.");
        }
    }
}
