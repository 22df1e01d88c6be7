using System.Diagnostics;
using MixEngine.Cli.Tests.Running;
using MixEngine.V1;

namespace MixEngine.Cli.Tests;

/// <summary>A match that takes long: a bar on a terminal, and Ctrl-C gives the best so far.</summary>
public sealed class MatchWatchTests : IDisposable
{
    private readonly Home _home = new();

    private static MatchProgress HalfWay => new() { Done = 0.5, Doing = "looking for the nearest", SoFar = PrescribedAnswers.MatchStopped };

    public void Dispose() => _home.Dispose();

    [Fact]
    public async Task ATerminalSeesABarAndThenTheAnswer()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux() && File.Exists("/usr/bin/script"), "script(1) of util-linux makes the terminal");
        await using FakeService fake = await FakeService.StartAsync(_home, new FakeService.Prescribed { MatchProgress = [HalfWay, HalfWay, HalfWay], Match = PrescribedAnswers.MatchReached });

        Outcome outcome = await Home.FinishAsync(_home.Start("/usr/bin/script", "--quiet", "--return", "--command", $"'{Home.Command}' match 5a6b3c --server {fake.Address}", "/dev/null"));

        outcome.Ended(0);
        Assert.Contains("[###############...............] 50 of 100  looking for the nearest, 2.5 away", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("3 kelp + 1 sailcloth", outcome.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task APipeGetsTheAnswerAlone()
    {
        await using FakeService fake = await FakeService.StartAsync(_home, new FakeService.Prescribed { MatchProgress = [HalfWay, HalfWay], Match = PrescribedAnswers.MatchReached });

        Outcome outcome = await _home.RunAsync("match", "5a6b3c", "--server", fake.Address);

        outcome.Ended(0);
        Assert.Empty(outcome.Error);
    }

    [Theory]
    [InlineData("Add 3 sea lettuce; together:")]
    [InlineData("\"proven\": false", "--json")]
    [InlineData("4 tarred rope + 3 sea lettuce", "--csv")]
    public async Task CtrlCGivesTheBestSoFarAndSaysThatItIsNotProven(string said, params string[] form)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "kill(1) sends the signal");
        var told = new TaskCompletionSource();
        await using FakeService fake = await FakeService.StartAsync(_home, new FakeService.Prescribed { MatchProgress = [HalfWay], Match = null, Matched = _ => told.SetResult() });
        Process match = _home.StartHearingCtrlC(Home.Command, ["match", "5a6b3c", "--server", fake.Address, .. form]);
        await told.Task;
        await Task.Delay(2000, TestContext.Current.CancellationToken);

        using Process kill = Process.Start("kill", ["-INT", $"{match.Id}"]);
        Outcome outcome = await Home.FinishAsync(match);

        outcome.Ended(130);
        Assert.Contains(said, outcome.Output, StringComparison.Ordinal);
        Assert.Contains("Stopped. This is the best so far, and it is not proven.", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task CtrlCBeforeAnythingWasFoundIsSaidPlainly()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "kill(1) sends the signal");
        var told = new TaskCompletionSource();
        await using FakeService fake = await FakeService.StartAsync(_home, new FakeService.Prescribed { Match = null, Matched = _ => told.SetResult() });
        Process match = _home.StartHearingCtrlC(Home.Command, "match", "5a6b3c", "--server", fake.Address);
        await told.Task;
        await Task.Delay(300, TestContext.Current.CancellationToken);

        using Process kill = Process.Start("kill", ["-INT", $"{match.Id}"]);
        Outcome outcome = await Home.FinishAsync(match);

        outcome.Ended(130);
        Assert.Empty(outcome.Output);
        Assert.Contains("Stopped.", outcome.Error, StringComparison.Ordinal);
    }
}
