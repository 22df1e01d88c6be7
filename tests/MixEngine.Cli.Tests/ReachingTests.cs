using System.Diagnostics;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using MixEngine.Cli.Tests.Running;
using MixEngine.V1;

namespace MixEngine.Cli.Tests;

/// <summary>A service that is not there, is another, is slow or cannot be started: exit code 3 and the reason, in words.</summary>
public sealed class ReachingTests : IDisposable
{
    private readonly Home _home = new();

    public void Dispose() => _home.Dispose();

    [Fact]
    public async Task ASocketWhereNobodyListensIsNamed()
    {
        Outcome outcome = await _home.RunAsync("predict", "kelp", "--server", $"unix:{_home.Folder}/none.sock");

        Failed(outcome, $"No service listens at unix:{_home.Folder}/none.sock.");
    }

    [Fact]
    public async Task APortWhereNobodyListensIsNamed()
    {
        // Port 1 is reserved (IANA, tcpmux) and closed on any machine that runs tests.
        Outcome outcome = await _home.RunAsync("predict", "kelp", "--server", "127.0.0.1:1");

        Failed(outcome, "No service answers at 127.0.0.1:1: Connection refused");
    }

    [Fact]
    public async Task APortThatSpeaksOnlyHttp1SaysSoAndWhatToDo()
    {
        await using WebApplication plain = await StartHttpAsync(HttpProtocols.Http1);
        string address = plain.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.Single();

        Outcome outcome = await _home.RunAsync("predict", "kelp", "--server", address);

        Failed(outcome, $"{address} speaks HTTP/1.1");
        Assert.Contains("--grpc", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AnotherProgramThatSpeaksHttp2IsNotTakenForAService()
    {
        await using WebApplication other = await StartHttpAsync(HttpProtocols.Http2);
        string address = other.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.Single();

        Outcome outcome = await _home.RunAsync("predict", "kelp", "--server", address);

        Failed(outcome, "does not know this question");
    }

    [Fact]
    public async Task AServiceThatEndsAtOnceIsToldWithItsLastWords()
    {
        string program = _home.Write("broken", "#!/bin/sh\necho 'the shelf is on fire' >&2\nexit 7\n");
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(program, UnixFileMode.UserRead | UnixFileMode.UserExecute);
        }
        _home.Variables["MIXENGINE_SERVICE"] = program;

        Outcome outcome = await _home.RunAsync("predict", "kelp");

        Failed(outcome, "The service ended as soon as it was started (exit code 7).");
        Assert.Contains("the shelf is on fire", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AServiceThatIsNotThereIsNamed()
    {
        _home.Variables["MIXENGINE_SERVICE"] = "/nowhere/service";

        Failed(await _home.RunAsync("predict", "kelp"), "MIXENGINE_SERVICE names /nowhere/service, and there is no such file.");
    }

    [Fact]
    public async Task AHomeThatCannotBeWrittenIsNamed()
    {
        _home.Write("file", "");
        _home.Variables["MIXENGINE_HOME"] = Path.Combine(_home.Folder, "file", "home");

        Failed(await _home.RunAsync("predict", "kelp"), "MIXENGINE_HOME");
    }

    [Fact]
    public async Task NoAnswerInTheTimeGivenIsSaid()
    {
        await using FakeService fake = await HangingAsync(new TaskCompletionSource(), new TaskCompletionSource());

        Outcome outcome = await _home.RunAsync("predict", "kelp", "--timeout", "0.3", "--server", fake.Address);

        Failed(outcome, "No answer came in the time given.");
    }

    [Fact]
    public async Task CtrlCStopsTheQuestionHereAndInTheService()
    {
        var asked = new TaskCompletionSource();
        var stopped = new TaskCompletionSource();
        await using FakeService fake = await HangingAsync(asked, stopped);
        Process command = _home.StartHearingCtrlC(Home.Command, "predict", "kelp", "--server", fake.Address);
        await asked.Task.WaitAsync(TimeSpan.FromSeconds(30), TestContext.Current.CancellationToken);

        using Process interrupt = Process.Start("kill", ["-INT", command.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]);

        await stopped.Task.WaitAsync(TimeSpan.FromSeconds(30), TestContext.Current.CancellationToken);
        Outcome outcome = await Home.FinishAsync(command);
        outcome.Ended(130);
        Assert.Equal("mixengine: Stopped.\n", outcome.Error);
    }

    private Task<FakeService> HangingAsync(TaskCompletionSource asked, TaskCompletionSource stopped) => FakeService.StartAsync(_home, new FakeService.Prescribed
    {
        Predict = async (_, context) =>
        {
            asked.TrySetResult();
            try
            {
                await Task.Delay(Timeout.Infinite, context.CancellationToken);
            }
            finally
            {
                stopped.TrySetResult();
            }
            return new PredictResponse();
        },
    });

    private static async Task<WebApplication> StartHttpAsync(HttpProtocols protocols)
    {
        WebApplicationBuilder builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.Listen(System.Net.IPAddress.Loopback, 0, listen => listen.Protocols = protocols));
        WebApplication application = builder.Build();
        await application.StartAsync();
        return application;
    }

    private static void Failed(Outcome outcome, string said)
    {
        outcome.Ended(3);
        Assert.Contains(said, outcome.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", outcome.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", outcome.Error, StringComparison.Ordinal);
        Assert.Empty(outcome.Output);
    }
}
