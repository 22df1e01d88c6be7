using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Service.Mapping;

/// <summary>The contract's words for choices.</summary>
internal sealed class Words<T>(params (T Value, string Word)[] words) where T : struct, Enum
{
    /// <summary>"matt, satin or gloss".</summary>
    public string All { get; } = string.Join(", ", words[..^1].Select(pair => pair.Word)) + " or " + words[^1].Word;

    /// <summary>The word for a value.</summary>
    public string For(T value) => words.First(pair => pair.Value.Equals(value)).Word;

    /// <summary>The value of a word in any case; null where it is none.</summary>
    public T? Read(string word)
    {
        foreach (var pair in words)
        {
            if (string.Equals(pair.Word, word.Trim(), StringComparison.OrdinalIgnoreCase))
            {
                return pair.Value;
            }
        }

        return null;
    }
}

/// <summary>The vocabularies of the contract.</summary>
internal static class Words
{
    public static Words<PaintKind> Kind { get; } = new((PaintKind.Paint, "paint"), (PaintKind.Medium, "medium"), (PaintKind.Water, "water"));

    public static Words<LightRule> LightRule { get; } = new((Core.LightRule.Worst, "worst"), (Core.LightRule.Weighted, "weighted"));

    public static Words<OpacityWord> Opacity { get; } = new(
        (OpacityWord.Opaque, "opaque"),
        (OpacityWord.SemiOpaque, "semi-opaque"),
        (OpacityWord.SemiTransparent, "semi-transparent"),
        (OpacityWord.Transparent, "transparent"));

    public static Words<Finish> Finish { get; } = new(
        (Core.Finish.Matt, "matt"),
        (Core.Finish.Satin, "satin"),
        (Core.Finish.Gloss, "gloss"));

    public static Words<StepDifference> Difference { get; } = new(
        (StepDifference.Ciede2000, "ciede2000"),
        (StepDifference.Cam16Ucs, "cam16-ucs"),
        (StepDifference.OkLab, "oklab"),
        (StepDifference.Lightness, "lightness"));

    public static Words<RampEnd> RampEnd { get; } = new((Core.RampEnd.Light, "light"), (Core.RampEnd.Dark, "dark"));

    public static Words<HuePath> HuePath { get; } = new(
        (Core.HuePath.Straight, "straight"),
        (Core.HuePath.WarmLight, "warm light"),
        (Core.HuePath.CoolShadow, "cool shadow"),
        (Core.HuePath.WarmLightCoolShadow, "warm light, cool shadow"));

    public static Words<RampFaultKind> RampFault { get; } = new(
        (RampFaultKind.Band, "band"),
        (RampFaultKind.TooClose, "too close"),
        (RampFaultKind.Darker, "darker"),
        (RampFaultKind.Misplaced, "misplaced"));

    public static Words<RampColorNoteKind> RampColorNote { get; } = new(
        (RampColorNoteKind.HueTurn, "hue turn"),
        (RampColorNoteKind.Chalk, "chalk"),
        (RampColorNoteKind.Mud, "mud"),
        (RampColorNoteKind.Greening, "greening"));

    public static Words<ColorVisionKind> Vision { get; } = new(
        (ColorVisionKind.Protan, "protan"),
        (ColorVisionKind.Deutan, "deutan"),
        (ColorVisionKind.Tritan, "tritan"));

    public static Words<Dosing> Dosing { get; } = new((Core.Dosing.Drops, "drops"), (Core.Dosing.Weighed, "weighed"));

    public static Words<ReadingSource> Source { get; } = new(
        (ReadingSource.Instrument, "instrument"),
        (ReadingSource.Photo, "photo"),
        (ReadingSource.Guess, "guess"));

    public static Words<SpecularMode> Specular { get; } = new((SpecularMode.Excluded, "excluded"), (SpecularMode.Included, "included"));

    public static Words<Grade> Grade { get; } = new(
        (Core.Grade.None, "none"),
        (Core.Grade.Color, "colour"),
        (Core.Grade.Ladder, "ladder"),
        (Core.Grade.Drawdown, "drawdown"),
        (Core.Grade.Spectra, "spectra"),
        (Core.Grade.History, "history"));
}
