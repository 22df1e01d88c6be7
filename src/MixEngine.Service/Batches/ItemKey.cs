using System.Security.Cryptography;
using Google.Protobuf;
using MixEngine.Service.Refusals;
using MixEngine.V1;

namespace MixEngine.Service.Batches;

/// <summary>Items of a batch with what they leave to it filled in.</summary>
internal static class ItemKey
{
    /// <summary>Most characters of a key.</summary>
    public const int Longest = 200;

    /// <summary>What is wrong with an item's key; null: nothing.</summary>
    public static string? Fault(string key) => key.Length is > 0 and <= Longest ? null : $"'{Shown.Of(key)}' has {key.Length} characters; a key has 1 to {Longest}.";

    /// <summary>The item with the batch's shelf and view where it states none. A question that needs neither stays as it is.</summary>
    public static BatchItem Filled(BatchItem item, string shelf, View? view)
    {
        var filled = item.Clone();
        switch (filled.QuestionCase)
        {
            case BatchItem.QuestionOneofCase.Predict:
                (filled.Predict.Shelf, filled.Predict.View) = Filled(filled.Predict.Shelf, filled.Predict.View, shelf, view);
                break;
            case BatchItem.QuestionOneofCase.Ramp:
                (filled.Ramp.Shelf, filled.Ramp.View) = Filled(filled.Ramp.Shelf, filled.Ramp.View, shelf, view);
                break;
            case BatchItem.QuestionOneofCase.Match:
                (filled.Match.Shelf, filled.Match.View) = Filled(filled.Match.Shelf, filled.Match.View, shelf, view);
                break;
            case BatchItem.QuestionOneofCase.Glaze:
                (filled.Glaze.Shelf, filled.Glaze.View) = Filled(filled.Glaze.Shelf, filled.Glaze.View, shelf, view);
                break;
            case BatchItem.QuestionOneofCase.Cover:
                (filled.Cover.Shelf, filled.Cover.View) = Filled(filled.Cover.Shelf, filled.Cover.View, shelf, view);
                break;
        }

        return filled;
    }

    /// <summary>Tells items with one key apart.</summary>
    public static byte[] HashOf(BatchItem filled) => SHA256.HashData(filled.ToByteArray());

    private static (string, View?) Filled(string shelf, View? view, string batchShelf, View? batchView) => (shelf.Length > 0 ? shelf : batchShelf, view ?? batchView);
}
