using MixEngine.Core;

namespace MixEngine.Storage;

/// <summary>The words by which choices are stored. They are part of the file's form: renaming a choice in the program does not rename them.</summary>
internal sealed class StoredWords<T>(params (T Value, string Word)[] words) where T : struct, Enum
{
    public string WordOf(T value) => words.First(pair => pair.Value.Equals(value)).Word;

    public T ValueOf(string word) => words.First(pair => pair.Word == word).Value;
}

internal static class StoredWords
{
    public static StoredWords<PaintKind> Kind { get; } = new(
        (PaintKind.Paint, "paint"),
        (PaintKind.Medium, "medium"),
        (PaintKind.Water, "water"));

    public static StoredWords<OpacityWord> Opacity { get; } = new(
        (OpacityWord.Opaque, "opaque"),
        (OpacityWord.SemiOpaque, "semi-opaque"),
        (OpacityWord.SemiTransparent, "semi-transparent"),
        (OpacityWord.Transparent, "transparent"));

    public static StoredWords<Finish> Finish { get; } = new(
        (MixEngine.Core.Finish.Matt, "matt"),
        (MixEngine.Core.Finish.Satin, "satin"),
        (MixEngine.Core.Finish.Gloss, "gloss"));

    public static StoredWords<Dosing> Dosing { get; } = new(
        (MixEngine.Core.Dosing.Drops, "drops"),
        (MixEngine.Core.Dosing.Weighed, "weighed"));

    public static StoredWords<ReadingSource> Source { get; } = new(
        (ReadingSource.Instrument, "instrument"),
        (ReadingSource.Photo, "photo"),
        (ReadingSource.Guess, "guess"));

    public static StoredWords<SpecularMode> Specular { get; } = new(
        (SpecularMode.NotStated, "not stated"),
        (SpecularMode.Excluded, "excluded"),
        (SpecularMode.Included, "included"));
}
