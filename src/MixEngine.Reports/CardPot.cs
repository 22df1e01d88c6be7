using System.Globalization;
using MixEngine.Core;

namespace MixEngine.Reports;

/// <summary>A pot on a card.</summary>
/// <param name="Number">By which steps call it.</param>
/// <param name="Parts">Its parts at their smallest, and the paints.</param>
/// <param name="Drops">Whole drops for all figures together, in the order of the parts.</param>
/// <param name="Percent">The same as percent.</param>
/// <param name="Ml">What that makes, ml.</param>
/// <param name="Color">What it looks like in a hiding layer; a glaze over the middle of what lies beneath.</param>
/// <param name="Uses">Where it goes.</param>
/// <param name="Rounding">What whole drops do to its colour, in words; empty: nothing.</param>
/// <param name="Warning">Where it is too small to measure; empty otherwise.</param>
public sealed record CardPot(
    int Number, IReadOnlyList<(string Count, string Of)> Parts, IReadOnlyList<string> Drops, string Percent, double Ml, CardColor Color, IReadOnlyList<string> Uses, string Rounding, string Warning)
{
    internal static CardPot Of(SchemeMix mix, View view)
    {
        // A glaze's pot is shown as what it does; any other as it dries in a hiding layer.
        var pot = mix.Pot;
        var glaze = mix.Uses.FirstOrDefault(use => use.Area.Area.Role == AreaRole.Glaze).Layer;
        var hiding = glaze?.Appearance ?? Prediction.AppearanceOf(pot.Recipe, view);
        return new CardPot(
            mix.Number,
            [.. pot.Recipe.Parts.Select(part => (Text($"{part.Parts:0.##}"), part.Paint.Name))],
            [.. pot.Scaled.Parts.Select(part => Text($"{part.Parts:0}"))],
            CardStep.PercentOf(pot.Recipe), pot.Ml, CardColor.Of(hiding),
            [.. mix.Uses.Select(use => $"{use.Area.Figure.Name} / {use.Area.Area.Name} / {use.Layer.Name}")],
            pot.RoundingDeltaE00 > 0 ? Text($"whole drops move it by {pot.RoundingDeltaE00:0.0} dE00, unseen") : "",
            pot.Warning ?? "");
    }

    /// <summary>"2 tarred rope + 1 kelp".</summary>
    public string PartsText => string.Join(" + ", Parts.Select(part => $"{part.Count} {part.Of}"));

    /// <summary>"24 + 12".</summary>
    public string DropsText => string.Join(" + ", Drops);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

/// <summary>A bottle on the overview.</summary>
/// <param name="Name">The paint.</param>
/// <param name="Range">Its series.</param>
/// <param name="Color">What it looks like; null for medium.</param>
/// <param name="Drops">Drops in all.</param>
/// <param name="Ml">The same in ml.</param>
/// <param name="OnTable">Whether it stands on the table already.</param>
/// <param name="Without">What happens without it, in words.</param>
public sealed record CardBottle(string Name, string Range, CardColor? Color, double Drops, double Ml, bool OnTable, string Without)
{
    internal static CardBottle Of(BottleUse use, View view) => new(
        use.Paint.Name, use.Paint.Range ?? "", use.Paint.Kind == PaintKind.Paint ? CardColor.Of(Prediction.AppearanceOf(Recipe.Of(use.Paint), view)) : null, use.Drops, use.Ml, use.OnTable,
        use.Without switch
        {
            null => "",
            { CouldGo: true } => "could go: the rest of the shelf stands in for it",
            { WorstDeltaE00: null } loss => $"cannot be replaced at {loss.Demand}",
            { WorstDeltaE00: { } worst } loss => string.Create(CultureInfo.InvariantCulture, $"without it {worst:0.0} dE00 off at {loss.Demand}"),
        });
}
