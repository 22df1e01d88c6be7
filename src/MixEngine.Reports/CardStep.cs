using System.Globalization;
using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Reports;

/// <summary>A step on a card.</summary>
/// <param name="Number">Counted over the whole figure.</param>
/// <param name="Name">"base", "layer 2", "highlight" ...</param>
/// <param name="Parts">What is stirred together: how many parts, and of what.</param>
/// <param name="Percent">The same as percent of paints: "67 % tarred rope + 33 % kelp".</param>
/// <param name="Where">Where it goes.</param>
/// <param name="Coats">How often it is laid.</param>
/// <param name="Color">What it looks like.</param>
/// <param name="Sure">How sure that is, in words.</param>
/// <param name="Target">How far from its target, in words; empty where there is none.</param>
/// <param name="Step">How far from the step before, in words; empty at a first step.</param>
public sealed record CardStep(
    int Number, string Name, IReadOnlyList<(string Count, string Of)> Parts, string Percent, string Where, int Coats, CardColor Color, string Sure, string Target, string Step)
{
    internal static CardStep Of(SchemePlan plan, LayerPlan layer, int number) => new(
        number, layer.Name, [.. layer.Blend.Parts.Select(part => Part(plan, part))], PercentOf(layer.Recipe), layer.Where, layer.Coats, CardColor.Of(layer.Appearance),
        Text($"{layer.ExpectedError.Words}: 19 times in 20 within {layer.ExpectedError.Bound:0.0} dE00"),
        layer.TargetDeltaE00 is { } target ? Text($"{target:0.0} dE00 from its target") : "",
        layer.StepDeltaE00 is { } step ? Text($"{step:0.0} dE00 from the step before") : "");

    /// <summary>"3 pot 4 + 1 kelp".</summary>
    public string PartsText => Parts.Count == 1 ? Parts[0].Of : string.Join(" + ", Parts.Select(part => $"{part.Count} {part.Of}"));

    private static (string, string) Part(SchemePlan plan, BlendPart part) => (Text($"{part.Parts:0.##}"), plan.PotOf(part.Pot) is { } pot ? Text($"pot {pot.Number}") : part.Pot.Parts[0].Paint.Name);

    internal static string PercentOf(Recipe recipe) =>
        string.Join(" + ", recipe.Parts.OrderByDescending(part => part.Parts).Select(part => Text($"{100 * part.Parts / recipe.Total:0} % {part.Paint.Name}")));

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

/// <summary>A colour on a card: swatch, numbers and words, so that it can be read without seeing colours.</summary>
/// <param name="Hex">What a screen can show of it.</param>
/// <param name="InGamut">Whether that is the colour itself.</param>
/// <param name="Lab">CIELAB.</param>
/// <param name="Words">In words.</param>
public sealed record CardColor(HexColor Hex, bool InGamut, Lab Lab, string Words)
{
    internal static CardColor Of(Appearance appearance) => new(appearance.Display.Hex, appearance.Display.InGamut, appearance.Lab, ColorWords.Describe(appearance.Lab));

    /// <summary>"L 34 a 12 b -8".</summary>
    public string LabText => string.Create(CultureInfo.InvariantCulture, $"L {Lab.L:0} a {Lab.A:0} b {Lab.B:0}");

    /// <summary>The hex, with a mark where a screen cannot show the colour itself.</summary>
    public string HexText => InGamut ? Hex.ToString() : $"{Hex} (nearest)";

    /// <summary>Whether white writing is read better on it than black.</summary>
    public bool IsDark => Lab.L < 55;
}
