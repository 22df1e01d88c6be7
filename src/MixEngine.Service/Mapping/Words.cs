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

    public static Words<OpacityWord> Opacity { get; } = new(
        (OpacityWord.Opaque, "opaque"),
        (OpacityWord.SemiOpaque, "semi-opaque"),
        (OpacityWord.SemiTransparent, "semi-transparent"),
        (OpacityWord.Transparent, "transparent"));

    public static Words<Finish> Finish { get; } = new(
        (Core.Finish.Matt, "matt"),
        (Core.Finish.Satin, "satin"),
        (Core.Finish.Gloss, "gloss"));

    public static Words<Grade> Grade { get; } = new(
        (Core.Grade.None, "none"),
        (Core.Grade.Color, "colour"),
        (Core.Grade.Ladder, "ladder"),
        (Core.Grade.Drawdown, "drawdown"),
        (Core.Grade.Spectra, "spectra"),
        (Core.Grade.History, "history"));
}
