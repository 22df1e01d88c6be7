using System.Globalization;
using System.Text;
using Google.Protobuf;
using Grpc.Net.Client;
using MixEngine.V1;

namespace MixEngine.ServiceLoad;

/// <summary>Sixty invented paints, spread over what hex codes can say.</summary>
internal static class InventedShelf
{
    public const string Name = "load";
    private const int Paints = 60;

    public static string Paint(int i) => string.Create(CultureInfo.InvariantCulture, $"pebble {i % Paints:000}");

    /// <summary>Recipes of two of them, no two alike.</summary>
    public static IReadOnlyList<string> Recipes { get; } =
        [.. Enumerable.Range(0, 4096).Select(i => string.Create(CultureInfo.InvariantCulture, $"{1 + i / 60 % 9} {Paint(i)} + {1 + i / 540} {Paint(31 * i + 1)}"))];

    public static async Task ImportAsync(GrpcChannel channel, string shelf = Name)
    {
        var table = new StringBuilder("name,hex,opacity\n");
        for (var i = 0; i < Paints; i++)
        {
            table.Append(CultureInfo.InvariantCulture, $"{Paint(i)},#{40 + i * 73 % 200:x2}{30 + i * 151 % 210:x2}{20 + i * 197 % 220:x2},semi-opaque\n");
        }

        await new Shelves.ShelvesClient(channel).ImportShelfAsync(new ImportShelfRequest { Shelf = shelf, FileName = "load.csv", Content = ByteString.CopyFromUtf8(table.ToString()) });
    }
}
