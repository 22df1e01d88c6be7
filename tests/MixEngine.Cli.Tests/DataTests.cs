using System.Diagnostics;
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

        // A file that will not do ends no service, and the refusal says what would.
        int? service = _home.BackgroundService;
        Outcome refused = (await _home.RunAsync("data", "restore", letter)).Ended(1);
        Assert.Contains("Name a file that 'data backup' wrote", refused.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("ends; this command takes its place", refused.Error, StringComparison.Ordinal);
        Assert.True(service is not null && Directory.Exists($"/proc/{service}"), "The service was ended.");
        Assert.Equal(["kelp"], await PaintsAsync());
        Assert.Empty(Directory.GetFiles(_home.Folder, "mixengine.db.before-*"));
    }

    [Fact]
    public async Task ADryRunOnlyLooks()
    {
        await ImportAsync("kelp,#4a4e26,opaque");
        (await _home.RunAsync("data", "backup", Backup)).Ended(0);
        await ImportAsync("tide pool,#2f6f78,opaque");
        int? service = _home.BackgroundService;
        Assert.Contains("is whole", (await _home.RunAsync("data", "restore", Backup, "--dry-run")).Ended(0).Output, StringComparison.Ordinal);
        Assert.Equal(service, _home.BackgroundService);
        Assert.Equal(["kelp", "tide pool"], await PaintsAsync());
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task TheDatabaseIsTheOneThatTheServicesSettingsName(bool inTheEnvironment)
    {
        // A relative path in a file begins at the file.
        string elsewhere = Path.Combine(_home.Folder, "harbour", "mixengine.db");
        string config = _home.Write("service.toml", "data = \"harbour\"\n");
        string[] told = inTheEnvironment ? [] : ["--config", config];
        if (inTheEnvironment)
        {
            // So does one in the environment, for the service in the background as for a command: here.
            _home.Variables["MIXENGINE_CONFIG"] = "service.toml";
            await ImportAsync("kelp,#4a4e26,opaque");
        }
        else
        {
            Process serve = _home.Start(Home.Command, "serve", "--config", config);
            while (await serve.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken) is { } line && !line.StartsWith("End it", StringComparison.Ordinal))
            {
            }
            await ImportAsync("kelp,#4a4e26,opaque");
            serve.Kill(entireProcessTree: true);
            await Home.FinishAsync(serve);
        }

        Assert.Contains(elsewhere, (await _home.RunAsync(["data", "check", .. told])).Ended(0).Output, StringComparison.Ordinal);
        Assert.Contains(elsewhere, (await _home.RunAsync(["data", "backup", Backup, .. told])).Ended(0).Output, StringComparison.Ordinal);
        Outcome restored = (await _home.RunAsync(["data", "restore", Backup, .. told])).Ended(0);
        Assert.Contains($"'{elsewhere}' is now", restored.Output, StringComparison.Ordinal);
        Assert.False(File.Exists(Database), "There is another database where the settings name none.");

        _home.Write("service.toml", "database = \"Host=db.example;Database=mixengine\"\n");
        string where = inTheEnvironment ? Path.Combine(_home.Folder, "service.toml") : config;
        Assert.StartsWith($"{where}, line 1, database: it names a database of PostgreSQL", (await _home.RunAsync(["data", "check", .. told])).Ended(1).Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ADatabaseThatIsInUseIsLeftAlone()
    {
        string other = Directory.CreateDirectory(Path.Combine(_home.Folder, "o")).FullName;
        await ImportAsync("kelp,#4a4e26,opaque");
        (await _home.RunAsync("data", "backup", Backup)).Ended(0);

        // The service in the background uses another database than the one that is named, and goes on.
        int? service = _home.BackgroundService;
        (await _home.RunAsync("data", "restore", Backup, "--data", other)).Ended(0);
        Assert.True(service is not null && Directory.Exists($"/proc/{service}"), "The service was ended.");

        Assert.Contains("is open in another process", (await _home.RunAsync("data", "restore", Backup, "--data", _home.Folder)).Ended(1).Error, StringComparison.Ordinal);
        Assert.Equal(["kelp"], await PaintsAsync());
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
