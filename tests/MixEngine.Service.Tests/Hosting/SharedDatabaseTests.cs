using Google.Protobuf;
using MixEngine.Storage.Tests;
using MixEngine.V1;

[assembly: AssemblyFixture(typeof(PostgresServer))]

namespace MixEngine.Service.Tests.Hosting;

/// <summary>Services on one database of PostgreSQL.</summary>
public sealed class SharedDatabaseTests(PostgresServer server) : IDisposable
{
    private readonly TemporaryFolder _here = new();
    private readonly TemporaryFolder _there = new();

    public void Dispose()
    {
        _here.Dispose();
        _there.Dispose();
    }

    [Fact]
    public async Task What_one_service_was_told_another_knows()
    {
        var database = server.NewDatabase().ConnectionString + ";Password=secret pearl";
        using var here = await ServiceProcess.StartReadyAsync(_here, "--database", database);
        using var there = await ServiceProcess.StartReadyAsync(_there, "--database", database);
        using (var channel = UnixChannel.To(_here.Socket))
        {
            await new V1.Shelves.ShelvesClient(channel).ImportShelfAsync(new ImportShelfRequest { Shelf = "home", FileName = "coast.csv", Content = ByteString.CopyFromUtf8(Coast.Table) });
        }

        using (var channel = UnixChannel.To(_there.Socket))
        {
            var answer = await new Mixing.MixingClient(channel).PredictAsync(new PredictRequest { Recipe = new RecipeInput { Text = "2 tarred rope + 1 kelp" } });
            Assert.NotEmpty(answer.Color.Hex);
        }

        Assert.False(Directory.Exists(_here.Data), "No file is made where a database is named.");
        here.Terminate();
        var (exitCode, log) = await here.EndAsync();
        Assert.Equal(0, exitCode);
        Assert.DoesNotContain("pearl", log);
    }

    [Theory]
    [InlineData("Host=127.0.0.1;Port=1;Database=sea;Username=crab;Password=secret pearl", "The database PostgreSQL 127.0.0.1:1/sea cannot be used: nobody answers there")]
    [InlineData("secret pearl", "--database: It cannot be read")]
    public async Task A_service_that_cannot_have_its_database_says_why_without_the_password(string database, string words)
    {
        using var service = ServiceProcess.Start("--socket", _here.Socket, "--data", _here.Data, "--database", database);
        var (exitCode, errors) = await service.EndAsync();
        Assert.Equal(1, exitCode);
        Assert.StartsWith(words, errors);
        Assert.DoesNotContain("pearl", errors);
    }
}
