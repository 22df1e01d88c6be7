using MixEngine.Cli.Tests.Running;

namespace MixEngine.Cli.Tests;

/// <summary>A copy of everything, a look through it, and a copy put back.</summary>
public sealed class DataTests : IDisposable
{
    private readonly Home _home = new();

    private string Backup => Path.Combine(_home.Folder, "monday.db");

    private string Database => Path.Combine(_home.Folder, "mixengine.db");

    public void Dispose() => _home.Dispose();

    [Fact]
    public async Task WhatWasThereWhenItWasCopiedIsThereAgainAndWhatCameAfterIsKeptBeside()
    {
        await ImportAsync("kelp,#4a4e26,opaque");
        (await _home.RunAsync("data", "backup", Backup)).Ended(0);
        await ImportAsync("tide pool,#2f6f78,opaque");
        Assert.Contains("can be read", (await _home.RunAsync("data", "check")).Ended(0).Output, StringComparison.Ordinal);

        // The service that runs in the background gives way, and starts again at the next question.
        Outcome restored = (await _home.RunAsync("data", "restore", Backup)).Ended(0);
        Assert.Contains("is kept in", restored.Output, StringComparison.Ordinal);
        Assert.Equal(["kelp"], await PaintsAsync());

        string beside = Directory.GetFiles(_home.Folder, "mixengine.db.before-*").Single();
        (await _home.RunAsync("data", "restore", beside)).Ended(0);
        Assert.Equal(["kelp", "tide pool"], await PaintsAsync());
    }

    [Fact]
    public async Task NothingIsOverwrittenAndNothingIsPutBackThatIsNoBackup()
    {
        (await _home.RunAsync("data", "backup", Backup)).Ended(1);
        await ImportAsync("kelp,#4a4e26,opaque");
        string letter = _home.Write("letter.db", "Dear sea, this is a letter.");
        Assert.Contains("exists already", (await _home.RunAsync("data", "backup", letter)).Ended(1).Error, StringComparison.Ordinal);
        Assert.Contains("not a MixEngine database", (await _home.RunAsync("data", "restore", letter)).Ended(1).Error, StringComparison.Ordinal);
        Assert.Contains("There is no file", (await _home.RunAsync("data", "restore", Backup)).Ended(1).Error, StringComparison.Ordinal);
        Assert.Equal(["kelp"], await PaintsAsync());
        Assert.Empty(Directory.GetFiles(_home.Folder, "mixengine.db.before-*"));
    }

    [Fact]
    public async Task ADamagedFileIsNamedAndABackupTakesItsPlace()
    {
        await ImportAsync("kelp,#4a4e26,opaque");
        (await _home.RunAsync("data", "backup", Backup)).Ended(0);
        _home.KillService();
        byte[] sea = new byte[20_000];
        new Random(7).NextBytes(sea);
        await File.WriteAllBytesAsync(Database, sea, TestContext.Current.CancellationToken);
        (await _home.RunAsync("data", "check")).Ended(2);
        (await _home.RunAsync("data", "restore", Backup)).Ended(0);
        Assert.Equal(["kelp"], await PaintsAsync());
        Assert.Equal(sea, await File.ReadAllBytesAsync(Directory.GetFiles(_home.Folder, "mixengine.db.before-*").Single(file => !file.EndsWith("-wal", StringComparison.Ordinal) && !file.EndsWith("-shm", StringComparison.Ordinal)),
            TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task ASharedDatabaseHasProgramsOfItsOwnForThis()
    {
        _home.Variables["MIXENGINE_DATABASE"] = "Host=db.example;Database=mixengine";
        Assert.Contains("pg_dump", (await _home.RunAsync("data", "backup", Backup)).Ended(1).Error, StringComparison.Ordinal);
        Assert.Contains("pg_restore", (await _home.RunAsync("data", "restore", Backup)).Ended(1).Error, StringComparison.Ordinal);
        Assert.Contains("--server", (await _home.RunAsync("data", "check", "--server", "127.0.0.1:1")).Ended(1).Error, StringComparison.Ordinal);
    }

    private async Task ImportAsync(string rows) => (await _home.RunWithInputAsync($"name,hex,opacity\n{rows}\n", "shelf", "import", "-")).Ended(0);

    private async Task<string[]> PaintsAsync() =>
        [.. (await _home.RunAsync("shelf", "export")).Ended(0).Lines.Skip(1).Select(line => line.Split(',')[0])];
}
