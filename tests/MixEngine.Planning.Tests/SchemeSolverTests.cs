using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Planning.Tests;

/// <summary>A real army, solved: what holds for every plan.</summary>
public class SchemeSolverTests
{
    private static readonly Lazy<SchemePlan> Army = new(() => SchemeSolver.Solve(TideFolk.Input, cancellation: TestContext.Current.CancellationToken));

    [Fact]
    public void The_army_is_a_dozen_figures_with_some_forty_areas()
    {
        Assert.Equal(12, TideFolk.Scheme.Figures.Count);
        Assert.InRange(Army.Value.Areas.Count, 38, 46);
        Assert.True(Army.Value.Palette.Proven);

        // Most of a scheme made for a shelf can be had from it.
        Assert.InRange(Army.Value.Areas.Count(area => area.Reached), 35, 46);
    }

    [Fact]
    public void Differences_are_those_of_a_prediction_made_afresh() => Assert.All(Army.Value.Layers.Where(step => step.Layer.Target is not null && step.Area.Area.Role != AreaRole.Glaze), step =>
        Assert.Equal(DeltaE2000.Between(step.Layer.Target!.Value, Prediction.Of(step.Layer.Recipe, TideFolk.Scheme.View).Appearance.Lab), step.Layer.TargetDeltaE00!.Value, 9));

    [Fact]
    public void What_is_called_reached_is_within_the_tolerance() => Assert.All(Army.Value.Areas.Where(area => area.Reached), area =>
        Assert.All(area.Layers, layer => Assert.True(layer.TargetDeltaE00 is not { } difference || difference <= TideFolk.Scheme.Tolerance + 1e-6)));

    [Fact]
    public void What_is_not_reached_says_why() => Assert.All(Army.Value.Areas.Where(area => !area.Reached), area => Assert.Contains(area.Remarks, remark => remark.Contains("Not reached", StringComparison.Ordinal)));

    [Fact]
    public void Layers_never_get_darker_and_are_counted_in_few_parts() => Assert.All(Army.Value.Areas.Where(area => area.Area.Role == AreaRole.Layers), area =>
    {
        var lightness = area.Layers.Select(layer => layer.Appearance.Lab.L).ToArray();
        Assert.Equal(lightness.Order(), lightness);
        Assert.All(area.Layers, layer => Assert.InRange(layer.Blend.Parts.Sum(part => part.Parts), 1, TideFolk.Scheme.Drops));
    });

    [Fact]
    public void Solved_mixes_keep_to_the_mood() => Assert.All(Army.Value.Areas, area =>
    {
        var ceiling = area.Area.ChromaAtMost ?? TideFolk.Scheme.ChromaAtMost!.Value;
        Assert.All(area.Layers.Where(layer => area.Area.Aim is AreaAim.Colors && area.Area.Role != AreaRole.Glaze), layer => Assert.InRange(layer.Appearance.Lab.Chroma, 0, ceiling + 1));
    });

    [Fact]
    public void Only_bottles_of_the_plan_are_used()
    {
        var bottles = Army.Value.Palette.Bottles.Select(place => Army.Value.Problem.Paints[place].Id).Append(Paint.Medium.Id).ToHashSet();
        Assert.All(Army.Value.Layers, step => Assert.All(step.Layer.Recipe.Parts, part => Assert.Contains(part.Paint.Id, bottles)));
        Assert.DoesNotContain(Army.Value.NotNeeded, paint => bottles.Contains(paint.Id));
    }

    [Fact]
    public void Areas_that_are_alike_share_their_pots()
    {
        AreaPlan Area(string key) => Army.Value.Areas.Single(area => area.Key == key);
        Assert.Equal("net casters / skin", Area("mud walkers / skin").SameAs);
        Assert.Equal(Area("net casters / skin").Layers.Select(layer => layer.Recipe.ToString()), Area("mud walkers / skin").Layers.Select(layer => layer.Recipe.ToString()));
    }

    [Fact]
    public void Every_pot_holds_what_its_uses_take_and_is_in_whole_drops() => Assert.All(Army.Value.Mixes, mix =>
    {
        Assert.True(mix.Pot.Ml >= mix.Pot.NeededMl - 1e-9);
        Assert.InRange(mix.Pot.RoundingDeltaE00, 0, Pot.UnseenRounding);
        Assert.All(mix.Pot.Scaled.Parts, part => Assert.Equal(Math.Round(part.Parts), part.Parts));
        Assert.Equal(
            mix.Pot.RoundingDeltaE00,
            DeltaE2000.Between(Prediction.LabOf(mix.Pot.Recipe, TideFolk.Scheme.View), Prediction.LabOf(mix.Pot.Scaled, TideFolk.Scheme.View)), 9);
    });

    [Fact]
    public void Solving_again_gives_the_same_plan_with_one_core_as_with_two()
    {
        var again = SchemeSolver.Solve(TideFolk.Input, cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(Told(Army.Value), Told(again));
    }

    [Fact]
    public void From_somebody_elses_shelf_every_step_has_its_loss()
    {
        // The neighbour has the boat's paints and the neutral ones.
        Paint[] neighbour = [.. TideFolk.Boat, .. TideFolk.Shelf.Where(paint => paint.Name is "soot black" or "gull white" or "old net" or "buoy yellow" or "deep channel")];
        var elsewhere = SchemeSolver.SolveElsewhere(Army.Value, neighbour, cancellation: TestContext.Current.CancellationToken);
        var comparison = SchemeComparison.Of(Army.Value, elsewhere);
        Assert.Equal(Army.Value.Layers.Count(), comparison.Steps.Count);
        Assert.All(comparison.Steps, step => Assert.Equal(DeltaE2000.Between(step.First.Appearance.Lab, step.Second.Appearance.Lab), step.DeltaE00, 9));

        // And from the own shelf nothing is lost that an eye sees beyond the tolerance, twice over: each plan may miss a target by it.
        var own = SchemeComparison.Of(Army.Value, SchemeSolver.SolveElsewhere(Army.Value, TideFolk.Shelf, cancellation: TestContext.Current.CancellationToken));
        Assert.True(own.Steps.Average(step => step.DeltaE00) < comparison.Steps.Average(step => step.DeltaE00));
    }

    [Fact]
    public void The_paint_said_to_help_most_helps_as_said()
    {
        var best = Army.Value.ToBuy[0];
        var problem = Army.Value.Problem;
        Paint[] bottles = [.. Army.Value.Palette.Bottles.Select(place => problem.Paints[place])];
        Demand[] targets = [.. problem.Demands.Where(demand => demand is { Given: null, Glaze: null })];
        double[] Best(Paint[] shelf) => [.. PaletteOptions.Of(TideFolk.Input with { Shelf = shelf }, targets, TestContext.Current.CancellationToken).Options.Select(options => options.Min(option => option.DeltaE00))];
        var gained = Best(bottles).Zip(Best([.. bottles, best.Paint]), (before, after) => before - after).ToArray();
        Assert.True(gained.Max() > 0.4, $"{best.Paint.Name} gains {gained.Max()}");
    }

    [Fact]
    public void Cautions_name_what_is_sprayed_and_defer_to_the_maker() =>
        Assert.Contains(Army.Value.Cautions, caution => caution.About == "spraying");

    private static string Told(SchemePlan plan) => string.Join('\n',
    [
        .. plan.Layers.Select(step => $"{step.Area.Key} {step.Layer.Name} {step.Layer.Recipe} {step.Layer.Appearance.Lab:R} {step.Layer.ExpectedError} {step.Layer.TargetDeltaE00:R}"),
        .. plan.Mixes.Select(mix => $"{mix.Number} {mix.Pot.Scaled} {mix.Pot.NeededMl:R}"),
        .. plan.ToBuy.Select(next => next.ToString()),
        .. plan.Palette.TradeOff.Select(point => point.ToString()),
    ]);
}
