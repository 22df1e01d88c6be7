using Microsoft.Extensions.Logging.Abstractions;
using MixEngine.Service.Shelves;
using MixEngine.Storage;

namespace MixEngine.Service.Tests.Shelves;

/// <summary>What a service with many owners holds in memory.</summary>
public sealed class LoadedShelvesTests(TestService service) : IClassFixture<TestService>
{
    [Fact]
    public async Task However_many_shelves_are_asked_for_only_so_many_are_held()
    {
        foreach (var number in Enumerable.Range(0, 40))
        {
            service.Import($"bay-{number}", Coast.Table);
        }

        using var database = SqliteDatabase.Open(Path.Combine(service.DataFolder, "mixengine.db"));
        using var shelves = new LoadedShelves(new ShelfStore(database), NullLogger<LoadedShelves>.Instance, most: 60);
        Assert.Same(shelves.Get(Owner.Home, "bay-0"), shelves.Get(Owner.Home, "bay-0"));
        for (var round = 0; round < 2; round++)
        {
            foreach (var number in Enumerable.Range(0, 40))
            {
                Assert.Equal("kelp", shelves.Get(Owner.Home, $"bay-{number}").Bottles[1].Stored.Id);

                // Eight paints each, and one for the shelf itself.
                Assert.InRange(shelves.Held, 0, 60 / 9);
            }
        }

        // What is held is let go of in the background; then there is room for the latest again.
        for (var i = 0; i < 200 && !ReferenceEquals(shelves.Get(Owner.Home, "bay-39"), shelves.Get(Owner.Home, "bay-39")); i++)
        {
            await Task.Delay(10);
        }

        Assert.Same(shelves.Get(Owner.Home, "bay-39"), shelves.Get(Owner.Home, "bay-39"));
    }

    [Fact]
    public void What_another_service_changes_in_the_same_file_is_seen_at_once()
    {
        service.Import("shared-bay", Coast.Table);
        using var database = SqliteDatabase.Open(Path.Combine(service.DataFolder, "mixengine.db"));
        using var shelves = new LoadedShelves(new ShelfStore(database), NullLogger<LoadedShelves>.Instance);
        var bottles = shelves.Get(Owner.Home, "shared-bay").Bottles.Count;
        for (var round = 1; round <= 20; round++)
        {
            var same = shelves.Get(Owner.Home, "shared-bay");
            Assert.Same(same, shelves.Get(Owner.Home, "shared-bay"));
            service.Import("another-bay", $"name,hex\npebble {round},#808080\n");
            Assert.Same(same, shelves.Get(Owner.Home, "shared-bay"));
            service.Import("shared-bay", $"name,hex\npebble {round},#808080\n");
            Assert.Equal(bottles + round, shelves.Get(Owner.Home, "shared-bay").Bottles.Count);
        }
    }
}
