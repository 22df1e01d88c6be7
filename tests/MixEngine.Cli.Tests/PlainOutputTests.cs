using System.Diagnostics;
using Grpc.Core;
using MixEngine.Cli.Tests.Running;
using MixEngine.V1;

namespace MixEngine.Cli.Tests;

/// <summary>Swatches only where they can be shown; everywhere else not one escape byte, and always words and numbers.</summary>
public sealed class PlainOutputTests : IDisposable
{
    private const string Escape = "\e";

    private readonly Home _home = new();

    public void Dispose() => _home.Dispose();

    [Theory]
    [InlineData("COLORTERM", "truecolor")]
    [InlineData("TERM", "xterm-256color")]
    public async Task APipeGetsNoEscapeByte(string variable, string value)
    {
        _home.Variables[variable] = value;
        await using FakeService fake = await FakeService.StartAsync(_home, PrescribedAnswers.All);

        Outcome outcome = await _home.RunAsync("ramp", "tarred rope", "kelp", "--server", fake.Address);

        outcome.Ended(0);
        Assert.DoesNotContain(Escape, outcome.Output, StringComparison.Ordinal);
        Assert.Contains("#3b2a20", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("very dark, dull orange", outcome.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ATerminalOfAllColoursGetsTheTrueColourAndItsWordsAndNumbers()
    {
        _home.Variables["COLORTERM"] = "truecolor";
        string shown = await OnTerminalAsync();

        Assert.Contains("\e[48;2;58;49;34m        \e[0m", shown, StringComparison.Ordinal);
        Assert.Contains("#3a3122   L 20.8  a +1.5  b +11.2", shown, StringComparison.Ordinal);
        Assert.Contains("very dark, dull yellow", shown, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ATerminalOf256ColoursGetsTheNearestOfThem()
    {
        _home.Variables["TERM"] = "xterm-256color";
        string shown = await OnTerminalAsync();

        Assert.Contains("\e[48;5;", shown, StringComparison.Ordinal);
        Assert.DoesNotContain("\e[48;2;", shown, StringComparison.Ordinal);
        Assert.Contains("#3a3122", shown, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("NO_COLOR", "1")]
    [InlineData("TERM", "dumb")]
    public async Task ATerminalThatWantsNoColourGetsNoSwatch(string variable, string value)
    {
        _home.Variables["COLORTERM"] = "truecolor";
        _home.Variables["TERM"] = "xterm-256color";
        _home.Variables[variable] = value;
        string shown = await OnTerminalAsync();

        Assert.DoesNotContain(Escape, shown, StringComparison.Ordinal);
        Assert.Contains("#3a3122", shown, StringComparison.Ordinal);
    }

    [Fact]
    public async Task APaintsNameCannotCommandTheTerminal()
    {
        PredictResponse sly = PrescribedAnswers.Predict;
        sly.Recipe.Text = "1 \e]0;owned\aink\r\n\e[2J (100 %)";
        sly.Remarks.Add("\e[31mred");
        await using FakeService fake = await FakeService.StartAsync(_home, new FakeService.Prescribed { Predict = (_, _) => Task.FromResult(sly) });

        Outcome outcome = await _home.RunAsync("predict", "ink", "--server", fake.Address);

        outcome.Ended(0);
        Assert.DoesNotContain(outcome.Output, c => char.IsControl(c) && c != '\n');
        Assert.Contains("ink", outcome.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AServicesRefusalCannotCommandTheTerminal()
    {
        await using FakeService fake = await FakeService.StartAsync(_home, new FakeService.Prescribed
        {
            Predict = (_, _) => throw new RpcException(new Status(StatusCode.NotFound, "no paint \e[2Jink")),
        });

        Outcome outcome = await _home.RunAsync("predict", "ink", "--server", fake.Address);

        outcome.Ended(1);
        Assert.DoesNotContain(outcome.Error, c => char.IsControl(c) && c != '\n');
    }

    /// <summary>Runs the command on a pseudo-terminal, which script(1) makes.</summary>
    private async Task<string> OnTerminalAsync()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux() && File.Exists("/usr/bin/script"), "script(1) of util-linux makes the terminal");
        await using FakeService fake = await FakeService.StartAsync(_home, PrescribedAnswers.All);
        Process script = _home.Start("/usr/bin/script", "--quiet", "--return", "--command", $"'{Home.Command}' predict 'tarred rope' --server {fake.Address}", "/dev/null");
        Outcome outcome = await Home.FinishAsync(script);
        outcome.Ended(0);
        return outcome.Output;
    }
}
