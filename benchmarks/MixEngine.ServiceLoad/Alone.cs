using System.Diagnostics;
using System.Globalization;
using Microsoft.Extensions.Logging.Abstractions;
using MixEngine.Core;
using MixEngine.Service.Mapping;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;
using MixEngine.Storage;

namespace MixEngine.ServiceLoad;

/// <summary>What the larger parts of answering a prediction take alone, one thread, over and over: the least of many rounds.</summary>
internal static class Alone
{
    private const int Rounds = 60;

    public static async Task RunAsync()
    {
        // The shelf comes into the file as any other does, and stays open there as beside another service.
        using var service = await Server.StartServiceAsync();
        using var channel = service.Channel();
        await InventedShelf.ImportAsync(channel);
        using var database = SqliteDatabase.Open(Path.Combine(Path.GetDirectoryName(service.Socket)!, "data", "mixengine.db"));
        var store = new ShelfStore(database);
        using var shelves = new LoadedShelves(store, NullLogger<LoadedShelves>.Instance);
        var shelf = shelves.Get(Owner.Home, InventedShelf.Name);
        var paints = shelf.Paints.ToDictionary(paint => paint.Name);
        var recipes = InventedShelf.Recipes.Select(text => new Recipe(Read(text, shelf).Select(part => new Part(paints[part.Name], part.Parts)))).ToArray();

        Tell("the shelf's revision, asked of SQLite", _ => store.RevisionOf(Owner.Home, InventedShelf.Name));
        Tell("the shelf held, when nothing has changed", _ => shelves.Get(Owner.Home, InventedShelf.Name));
        Tell("the recipe's text", i => Read(InventedShelf.Recipes[i], shelf));
        Tell("the colour and how sure it is", i => Prediction.Of(recipes[i], View.Default));
    }

    private static IReadOnlyList<(string Name, double Parts)> Read(string text, Shelf shelf) =>
        RecipeText.Read(text, name => PaintLookup.Exactly(shelf, name) is not null, "recipe", new Violations())!;

    private static void Tell(string what, Action<int> work)
    {
        var least = double.MaxValue;
        for (var round = 0; round < Rounds; round++)
        {
            var begin = Stopwatch.GetTimestamp();
            for (var i = 0; i < InventedShelf.Recipes.Count; i++)
            {
                work(i);
            }

            least = Math.Min(least, Stopwatch.GetElapsedTime(begin).TotalMicroseconds / InventedShelf.Recipes.Count);
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{least,7:0.00} us  {what}"));
    }
}
