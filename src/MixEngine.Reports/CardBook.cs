using MixEngine.Core;

namespace MixEngine.Reports;

/// <summary>What stands on the pages of a scheme, in words and numbers, before it is laid out: one card for each figure.</summary>
/// <param name="Title">The scheme's name.</param>
/// <param name="Figures">One card each, in the order of the file.</param>
/// <param name="Pots">All pots of the scheme.</param>
/// <param name="Bottles">All bottles, with what they are needed for.</param>
/// <param name="Remarks">What is to be said of the whole.</param>
/// <param name="Cautions">What to take care of.</param>
public sealed record CardBook(
    string Title, IReadOnlyList<FigureCard> Figures, IReadOnlyList<CardPot> Pots, IReadOnlyList<CardBottle> Bottles, IReadOnlyList<string> Remarks, IReadOnlyList<Caution> Cautions)
{
    /// <summary>Writes the cards of a plan.</summary>
    public static CardBook Of(SchemePlan plan)
    {
        var pots = plan.Mixes.ToDictionary(mix => mix.Number, mix => CardPot.Of(mix, plan.Scheme.View));
        return new CardBook(
            plan.Scheme.Name,
            [.. plan.Scheme.Figures.Select((figure, i) => FigureOf(plan, figure, i + 1, pots))],
            [.. pots.Values],
            [.. plan.Bottles.Select(use => CardBottle.Of(use, plan.Scheme.View))],
            [.. plan.Remarks, .. plan.Bottles.SelectMany(bottle => bottle.Remarks.Select(remark => $"{bottle.Paint.Name}: {remark}"))],
            [.. plan.Cautions, new Caution("always", Caution.Deferring)]);
    }

    private static FigureCard FigureOf(SchemePlan plan, Figure figure, int number, Dictionary<int, CardPot> pots)
    {
        // The order of painting: what hides, then glazes, then the seams.
        var areas = plan.Areas.Where(area => area.Figure == figure).OrderBy(area => area.Area.Role switch { AreaRole.Glaze => 1, AreaRole.Lining => 2, _ => 0 }).ToArray();
        var used = areas.SelectMany(area => area.Layers).SelectMany(layer => layer.Blend.Parts)
            .Select(part => plan.PotOf(part.Pot)?.Number).OfType<int>().Distinct().Order().Select(pot => pots[pot]).ToArray();
        var step = 0;
        return new FigureCard(
            number, figure.Name, figure.Count, PrimerLine(plan.Scheme), used,
            [.. areas.Select(area => new CardArea(
                area.Area.Name, RoleOf(area), area.SameAs,
                [.. area.Layers.Select(layer => CardStep.Of(plan, layer, ++step))],
                [.. area.Remarks, .. area.Layers.SelectMany(layer => layer.Remarks.Select(remark => $"{layer.Name}: {remark}"))]))],
            VarnishLine(plan.Scheme));
    }

    private static string RoleOf(AreaPlan area) => area.Area.Role switch
    {
        AreaRole.Glaze => $"glaze over {area.Area.Over}",
        AreaRole.Lining => "lining",
        AreaRole.Single => "one colour",
        _ => $"{area.Layers.Count} steps, dark to light",
    };

    private static string? PrimerLine(Scheme scheme) =>
        scheme.Primer is { } primer ? $"{primer} primer{(scheme.Sprayed.Contains(SprayedCoat.Primer) ? ", sprayed" : "")}" : null;

    private static string? VarnishLine(Scheme scheme) =>
        scheme.Varnish is { } varnish ? $"{varnish.Finish.ToString().ToLowerInvariant()} varnish{(varnish.Solvent ? " (solvent)" : "")}{(scheme.Sprayed.Contains(SprayedCoat.Varnish) ? ", sprayed" : "")}" : null;
}

/// <summary>The card of one figure.</summary>
/// <param name="Number">1 for the first.</param>
/// <param name="Name">The figure.</param>
/// <param name="Count">How many of them.</param>
/// <param name="Primer">What comes first; null: nothing.</param>
/// <param name="Pots">The pots that it takes.</param>
/// <param name="Areas">Its areas in the order of painting.</param>
/// <param name="Varnish">What comes last; null: nothing.</param>
public sealed record FigureCard(int Number, string Name, int Count, string? Primer, IReadOnlyList<CardPot> Pots, IReadOnlyList<CardArea> Areas, string? Varnish);

/// <summary>An area on a card.</summary>
/// <param name="Name">The area.</param>
/// <param name="Role">What is done there.</param>
/// <param name="SameAs">The area whose mixes it shares; null: its own.</param>
/// <param name="Steps">In the order of painting.</param>
/// <param name="Remarks">What is to be said of it.</param>
public sealed record CardArea(string Name, string Role, string? SameAs, IReadOnlyList<CardStep> Steps, IReadOnlyList<string> Remarks);
