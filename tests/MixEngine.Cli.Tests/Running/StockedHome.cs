namespace MixEngine.Cli.Tests.Running;

/// <summary>A home with the demo's paints on the shelf "home", and its own real service: one for a class of tests.</summary>
public sealed class StockedHome : IAsyncLifetime
{
    public Home Home { get; } = new();

    public async ValueTask InitializeAsync()
    {
        Outcome table = await Home.RunAsync("demo", "--csv");
        string path = Home.Write("coast.csv", table.Ended(0).Output);
        (await Home.RunAsync("shelf", "import", path)).Ended(0);
    }

    public ValueTask DisposeAsync()
    {
        Home.Dispose();
        return ValueTask.CompletedTask;
    }

    public Task<Outcome> RunAsync(params string[] arguments) => Home.RunAsync(arguments);
}
