using System.Security.Cryptography;
using Google.Protobuf;
using MixEngine.Service.Refusals;
using MixEngine.V1;

namespace MixEngine.Service.Batches;

/// <summary>What an item of a batch may be, and items with what they leave to it filled in.</summary>
internal static class ItemKey
{
    /// <summary>Most characters of a key.</summary>
    public const int Longest = 200;

    /// <summary>Most bytes of an item: as many as wait in the service's queues, so that an asker who reads no answers cannot fill its memory.</summary>
    public const int MostBytes = 256 << 10;

    /// <summary>What is wrong with an item before its question is looked at, and in which field; null: nothing.</summary>
    public static (string Field, string Words)? Fault(BatchItem item) =>
        item.Key.Length is 0 or > Longest ? ("key", $"'{Shown.Of(item.Key)}' has {item.Key.Length} characters; a key has 1 to {Longest}.")
        : item.CalculateSize() is > MostBytes and var bytes ? ("item", $"The item has {bytes} bytes; at most {MostBytes >> 10} KiB are read. Ask for less in one item.")
        : null;

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
