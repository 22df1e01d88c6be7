using MixEngine.Core;

namespace MixEngine.Reports;

/// <summary>A table of a report: what stands in its cells is text, a number, or nothing.</summary>
/// <param name="Name">The worksheet's or the file's name.</param>
/// <param name="Columns">Headings; units in them.</param>
/// <param name="Rows">Cells: string, double, int or null.</param>
public sealed record SchemeTable(string Name, IReadOnlyList<string> Columns, IReadOnlyList<IReadOnlyList<object?>> Rows)
{
    /// <summary>The tables of a plan: steps, pots, bottles, trade-off, what to buy, cautions.</summary>
    public static IReadOnlyList<SchemeTable> Of(CardBook book, SchemePlan plan) => [Steps(plan), Pots(book, plan), Bottles(plan), TradeOff(plan), ToBuy(plan), Cautions(book)];

    /// <summary>Two plans side by side.</summary>
    public static SchemeTable Of(SchemeComparison comparison) => new(
        "comparison",
        ["figure", "area", "step", "mix here", "hex here", "mix there", "hex there", "delta_e00", "in words"],
        [.. comparison.Steps.Select(step => (IReadOnlyList<object?>)
        [
            step.Area.Figure.Name, step.Area.Area.Name, step.First.Name, CardStep.PercentOf(step.First.Recipe), step.First.Appearance.Display.Hex.ToString(),
            CardStep.PercentOf(step.Second.Recipe), step.Second.Appearance.Display.Hex.ToString(), Round(step.DeltaE00), step.Words,
        ])]);

    private static SchemeTable Steps(SchemePlan plan) => new(
        "steps",
        ["figure", "count", "area", "role", "step", "make", "percent", "where", "coats", "hex", "in_gamut", "L", "a", "b", "words", "target_delta_e00", "step_delta_e00", "expected_error_delta_e00", "remarks"],
        [.. plan.Layers.Select((step, i) => (Step: step, Card: CardStep.Of(plan, step.Layer, i + 1))).Select(row => (IReadOnlyList<object?>)
        [
            row.Step.Area.Figure.Name, row.Step.Area.Figure.Count, row.Step.Area.Area.Name, row.Step.Area.Area.Role.ToString().ToLowerInvariant(), row.Card.Name, row.Card.PartsText, row.Card.Percent,
            row.Card.Where, row.Card.Coats, row.Card.Color.Hex.ToString(), row.Card.Color.InGamut ? "yes" : "no",
            Round(row.Card.Color.Lab.L), Round(row.Card.Color.Lab.A), Round(row.Card.Color.Lab.B), row.Card.Color.Words,
            Round(row.Step.Layer.TargetDeltaE00), Round(row.Step.Layer.StepDeltaE00), Round(row.Step.Layer.ExpectedError.Bound),
            string.Join(" ", row.Step.Area.Remarks.Concat(row.Step.Layer.Remarks)),
        ])]);

    private static SchemeTable Pots(CardBook book, SchemePlan plan) => new(
        "pots",
        ["pot", "parts", "percent", "drops", "ml", "needed_ml", "hex", "rounding_delta_e00", "warning", "uses"],
        [.. book.Pots.Zip(plan.Mixes, (card, mix) => (IReadOnlyList<object?>)
        [
            card.Number, card.PartsText, card.Percent, card.DropsText, Round(card.Ml), Round(mix.Pot.NeededMl), card.Color.Hex.ToString(), Round(mix.Pot.RoundingDeltaE00), card.Warning,
            string.Join("; ", card.Uses),
        ])]);

    private static SchemeTable Bottles(SchemePlan plan) => new(
        "bottles",
        ["paint", "range", "uses", "drops", "ml", "ml_left", "on_table", "without_it_worst_delta_e00", "without_it_worst_at", "could_go"],
        [.. plan.Bottles.Select(use => (IReadOnlyList<object?>)
        [
            use.Paint.Name, use.Paint.Range, use.Uses, use.Drops, Round(use.Ml), Round(use.Paint.MlLeft), use.OnTable ? "yes" : "no",
            Round(use.Without?.WorstDeltaE00), use.Without?.Demand, use.Without is { } loss ? (loss.CouldGo ? "yes" : "no") : null,
        ]),
        .. plan.NotNeeded.Select(paint => (IReadOnlyList<object?>)[paint.Name, paint.Range, 0, 0, 0, Round(paint.MlLeft), null, null, null, "yes"])]);

    private static SchemeTable TradeOff(SchemePlan plan) => new(
        "trade-off", ["bottles", "worst_delta_e00", "proven", "this_plan"],
        [.. plan.Palette.TradeOff.Select(point => (IReadOnlyList<object?>)[point.Bottles, Round(point.WorstDeltaE00), point.Proven ? "yes" : "no", point.Bottles == plan.Palette.Bottles.Count ? "yes" : "no"])]);

    private static SchemeTable ToBuy(SchemePlan plan) => new(
        "to buy", ["paint", "colours_nearer", "colours_reached", "gain_delta_e00", "helps_most_at"],
        [.. plan.ToBuy.Select(next => (IReadOnlyList<object?>)[next.Paint.Name, next.Improved, next.Reached, Round(next.Gain), next.Best])]);

    private static SchemeTable Cautions(CardBook book) => new(
        "cautions", ["about", "what to do"], [.. book.Cautions.Select(caution => (IReadOnlyList<object?>)[caution.About, caution.Words])]);

    private static double? Round(double? value) => value is { } number ? Math.Round(number, 2) : null;
}
