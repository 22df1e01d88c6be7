using MixEngine.Cli.Tests.Running;

namespace MixEngine.Cli.Tests;

/// <summary>Access keys, by the command as whoever runs a service types it.</summary>
public sealed class KeyTests : IDisposable
{
    private readonly Home _home = new();

    public void Dispose() => _home.Dispose();

    [Fact]
    public async Task AKeyIsMadeListedAndRevokedWhereTheDataLies()
    {
        string key = (await _home.RunAsync("key", "create", "--owner", "tide-guild", "--scope", "read", "--label", "harbour tablet")).Ended(0).Output.Trim();
        string id = key.Split('_')[1];
        Outcome list = (await _home.RunAsync("key", "list")).Ended(0);
        Assert.Matches($"^{id}\ttide-guild\tread\tmade .*\tholds\tharbour tablet", list.Output);
        Assert.DoesNotContain(key, list.Output, StringComparison.Ordinal);
        (await _home.RunAsync("key", "create", "--owner", "tide-guild", "--days", "30")).Ended(0);
        Assert.Matches("\tholds until [0-9]{4}-[0-9]{2}-[0-9]{2}", (await _home.RunAsync("key", "list")).Ended(0).Output);
        (await _home.RunAsync("key", "revoke", id)).Ended(0);
        Assert.Contains("\trevoked ", (await _home.RunAsync("key", "list")).Ended(0).Output, StringComparison.Ordinal);
        Assert.Contains("no key 'x'", (await _home.RunAsync("key", "revoke", "x")).Ended(1).Error, StringComparison.Ordinal);
        Assert.Contains("--server", (await _home.RunAsync("key", "list", "--server", "127.0.0.1:7401")).Ended(1).Error, StringComparison.Ordinal);
    }
}
