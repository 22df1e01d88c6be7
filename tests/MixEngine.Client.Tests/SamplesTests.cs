using System.Diagnostics;
using Grpc.Net.Client;
using MixEngine.Contracts.Tests;
using MixEngine.V1;

namespace MixEngine.Client.Tests;

/// <summary>The samples as a stranger runs them: copied to another place, with what their README says they need.</summary>
public sealed class SamplesTests : IClassFixture<RunningService>, IClassFixture<SharedService>, IDisposable
{
    private const string Target = "#5a6b3c";

    private readonly string _copy = Directory.CreateTempSubdirectory("mx-samples-").FullName;
    private readonly RunningService _service;
    private readonly SharedService _shared;

    public SamplesTests(RunningService service, SharedService shared)
    {
        (_service, _shared) = (service, shared);
        foreach (var folder in new[] { Path.Combine("clients", "samples"), "protos" })
        {
            foreach (var file in Directory.EnumerateFiles(Path.Combine(Repository.Root, folder), "*", SearchOption.AllDirectories).Where(file => !file.Contains("node_modules", StringComparison.Ordinal)))
            {
                var to = Path.Combine(_copy, Path.GetRelativePath(Repository.Root, file));
                Directory.CreateDirectory(Path.GetDirectoryName(to)!);
                File.Copy(file, to);
            }
        }
    }

    private string Folder => Path.Combine(_copy, "clients", "samples");

    public void Dispose() => Directory.Delete(_copy, recursive: true);

    [Fact]
    public Task Bash()
    {
        Need("curl", "curl");
        return TryAsync("http://" + _service.Http, "bash", "match.sh");
    }

    [Fact]
    public async Task Python()
    {
        // Debian's own: it is for that one that the packages are.
        var python = File.Exists("/usr/bin/python3") ? "/usr/bin/python3" : "python3";
        Need("grpc_python_plugin", "python3-grpcio protobuf-compiler libprotobuf-dev protobuf-compiler-grpc");
        Assert.SkipUnless((await RunAsync(python, "-c", "import grpc")).ExitCode == 0, "Python's gRPC is not installed: apt-get install python3-grpcio.");
        await TryAsync("http://" + _service.Grpc, python, "match.py");
    }

    [Fact]
    public async Task JavaScript()
    {
        Need("npm", "nodejs npm");
        var (exitCode, output) = await RunAsync("npm", "ci", "--no-audit", "--no-fund", "--ignore-scripts");
        Assert.True(exitCode == 0, output);
        await TryAsync("http://" + _service.Grpc, "node", "match.mjs");
    }

    [Fact]
    public async Task CSharp()
    {
        var packages = Path.Combine(_copy, "packages");
        var configuration = Path.GetFileName(AppContext.BaseDirectory.TrimEnd('/'));
        var (exitCode, output) = await RunAsync("dotnet", "pack", Path.Combine(Repository.Root, "src", "MixEngine.Client"), "--no-build", "-p:BuildProjectReferences=false", "-c", configuration, "-o", packages);
        Assert.True(exitCode == 0, output);
        await TryAsync("http://" + _service.Grpc, "dotnet", "run", "match.cs", "--");
    }

    private async Task TryAsync(string address, string program, params string[] script)
    {
        using (var channel = ServiceChannel.To("http://" + _service.Grpc))
        {
            await CompareAsync(channel, [], program, [.. script, Target, address]);
        }

        // What is wrong is told, and the sample does not end as if all were well.
        await RefusedAsync("'a wave'", [], program, [.. script, "a wave", address]);
        await TrySharedAsync(program, [.. script, Target]);
    }

    private async Task TrySharedAsync(string program, string[] command)
    {
        var settings = new Dictionary<string, string> { ["MIXENGINE_ADDRESS"] = _shared.Address, ["MIXENGINE_KEY"] = _shared.Key, ["MIXENGINE_CA"] = _shared.Authority };
        using var channel = ServiceChannel.To(_shared.Address, _shared.Key, _shared.Authority);
        await CompareAsync(channel, settings, program, command);
        await RefusedAsync("key", new(settings) { ["MIXENGINE_KEY"] = _shared.Key + "x" }, program, command);
        await RefusedAsync("certificate", new(settings) { ["MIXENGINE_CA"] = "" }, program, command);
    }

    // The sample answers what the library does.
    private async Task CompareAsync(GrpcChannel channel, Dictionary<string, string> settings, string program, string[] command)
    {
        await ClientTests.ImportAsync(channel);
        var best = (await new Mixing.MixingClient(channel).MatchAsync(new MatchRequest { Shelf = "home", Target = new ColorInput { Text = Target } }, cancellationToken: TestContext.Current.CancellationToken)).Matches[0];
        var (exitCode, output) = await RunAsync(settings, program, command);
        Assert.True(exitCode == 0, output);
        Assert.Contains(best.Recipe.Text, output, StringComparison.Ordinal);
        Assert.Contains(best.Color.Hex, output, StringComparison.Ordinal);
    }

    private async Task RefusedAsync(string words, Dictionary<string, string> settings, string program, string[] command)
    {
        var (exitCode, output) = await RunAsync(settings, program, command);
        Assert.True(exitCode == 1, output);
        Assert.Contains(words, output, StringComparison.OrdinalIgnoreCase);
    }

    private static void Need(string program, string packages) => Assert.SkipUnless(
        (Environment.GetEnvironmentVariable("PATH") ?? "").Split(':').Any(folder => File.Exists(Path.Combine(folder, program))), $"{program} is not installed: apt-get install {packages}.");

    private Task<(int ExitCode, string Output)> RunAsync(string program, params string[] arguments) => RunAsync([], program, arguments);

    private async Task<(int ExitCode, string Output)> RunAsync(Dictionary<string, string> settings, string program, string[] arguments)
    {
        var start = new ProcessStartInfo(program, arguments) { WorkingDirectory = Folder, RedirectStandardOutput = true, RedirectStandardError = true };
        start.Environment["MIXENGINE_PACKAGES"] = Path.Combine(_copy, "packages");

        foreach (var (name, value) in settings)
        {
            start.Environment[name] = value;
        }

        // The package of these sources goes to a place of its own: one of the same version from before would be taken instead.
        if (arguments[0] == "run")
        {
            var shared = Environment.GetEnvironmentVariable("NUGET_PACKAGES") ?? Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".nuget", "packages");
            start.Environment["NUGET_FALLBACK_PACKAGES"] = shared;
            start.Environment["NUGET_PACKAGES"] = Path.Combine(_copy, "restored");
        }

        using var process = Process.Start(start)!;
        var (output, errors) = (process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
        try
        {
            await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        }
        catch (OperationCanceledException)
        {
            process.Kill(entireProcessTree: true);
            throw;
        }

        return (process.ExitCode, await output + await errors);
    }
}
