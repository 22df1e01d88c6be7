using System.Diagnostics;
using System.Globalization;
using System.Net.Sockets;
using MixEngine.Cli.Tests.Running;

namespace MixEngine.Cli.Tests;

/// <summary>The local service is found or started, whatever happened to the last one.</summary>
public sealed class LocalServiceTests : IDisposable
{
    private readonly Home _home = new();

    public void Dispose() => _home.Dispose();

    [Fact]
    public async Task AServiceIsStartedOnceAndOnlyItsUserMayEnter()
    {
        (await ListAsync()).Ended(0);
        int? first = _home.BackgroundService;
        (await ListAsync()).Ended(0);

        Assert.NotNull(first);
        Assert.Equal(first, _home.BackgroundService);
        if (!OperatingSystem.IsWindows())
        {
            const UnixFileMode Others = UnixFileMode.GroupRead | UnixFileMode.GroupWrite | UnixFileMode.GroupExecute | UnixFileMode.OtherRead | UnixFileMode.OtherWrite | UnixFileMode.OtherExecute;
            Assert.Equal((UnixFileMode)0, File.GetUnixFileMode(Path.Combine(_home.Folder, "run")) & Others);
        }
    }

    [Fact]
    public async Task AKilledServiceIsStartedAgainAndTheShelfIsStillThere()
    {
        (await _home.RunWithInputAsync("name,hex,opacity\nkelp,#4a4e26,opaque\n", "shelf", "import", "-")).Ended(0);
        int? first = _home.BackgroundService;
        _home.KillService();
        Assert.True(File.Exists(_home.Socket), "a killed service leaves its socket behind");

        Outcome outcome = await _home.RunAsync("predict", "kelp");

        outcome.Ended(0);
        Assert.NotEqual(first, _home.BackgroundService);
    }

    [Fact]
    public async Task ASocketThatNobodyEverHeldIsNoObstacle()
    {
        Directory.CreateDirectory(Path.GetDirectoryName(_home.Socket)!);
        using (var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified))
        {
            // Bound, and closed without being unlinked: the file stays.
            socket.Bind(new UnixDomainSocketEndPoint(_home.Socket));
        }
        if (!File.Exists(_home.Socket))
        {
            await File.WriteAllTextAsync(_home.Socket, "", TestContext.Current.CancellationToken);
        }

        (await ListAsync()).Ended(0);
    }

    [Fact]
    public async Task TwentyCommandsAtOnceStartOneServiceAndAreAllAnswered()
    {
        Outcome[] outcomes = await Task.WhenAll(Enumerable.Range(0, 20).Select(_ => ListAsync()));

        Assert.All(outcomes, outcome => outcome.Ended(0));
        Assert.NotNull(_home.BackgroundService);
        Assert.Single(ServicesOfThisHome());
    }

    [Fact]
    public async Task TheServiceOutlivesTheCommandAndItsSession()
    {
        (await ListAsync()).Ended(0);
        int id = _home.BackgroundService!.Value;

        Assert.SkipUnless(File.Exists($"/proc/{id}/stat"), "/proc tells sessions on Linux only");
        // Fields after the parenthesised name (proc_pid_stat(5)): state, parent, process group, session.
        string[] fields = (await File.ReadAllTextAsync($"/proc/{id}/stat", TestContext.Current.CancellationToken)).Split(") ")[1].Split(' ');
        Assert.Equal(id, int.Parse(fields[3], CultureInfo.InvariantCulture));
        Assert.Equal("/dev/null", new FileInfo($"/proc/{id}/fd/0").LinkTarget);
    }

    /// <summary>A script that waits for the end of the command's output is not kept waiting by the service it started.</summary>
    [Fact]
    public async Task NothingOfTheCallingScriptStaysOpenInTheService()
    {
        Process script = _home.Start("/bin/sh", "-c", $"exec 3>&1; answer=$('{Home.Command}' shelf list --shelves); echo \"ended $?\"");

        Outcome outcome = await Home.FinishAsync(script);

        Assert.Equal("ended 0\n", outcome.Output);
    }

    [Fact]
    public async Task ServeTakesThePlaceOfTheServiceInTheBackgroundAndSaysHowToCallIt()
    {
        (await ListAsync()).Ended(0);
        string port = "127.0.0.1:" + FreePort();
        Process serve = _home.Start(Home.Command, "serve", "--http", port);
        string said = "";
        while (!said.Contains("End it", StringComparison.Ordinal) && await serve.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken) is { } line)
        {
            said += line + "\n";
        }

        Outcome answered = await ListAsync();
        using var client = new HttpClient();
        string json = await client.GetStringAsync($"http://{port}/v1/shelves", TestContext.Current.CancellationToken);
        Outcome wrongPort = await _home.RunAsync("shelf", "list", "--server", port);
        Outcome second = await _home.RunAsync("serve");
        using (Process terminate = Process.Start("kill", ["-TERM", serve.Id.ToString(CultureInfo.InvariantCulture)]))
        {
        }
        Outcome ended = await Home.FinishAsync(serve);

        Assert.Contains($"unix:{_home.Socket}", said, StringComparison.Ordinal);
        Assert.Contains("curl", said, StringComparison.Ordinal);
        Assert.Contains("shelves", json, StringComparison.Ordinal);
        Assert.Contains($"{port} speaks HTTP/1.1", wrongPort.Ended(3).Error, StringComparison.Ordinal);
        answered.Ended(0);
        second.Ended(1);
        Assert.Contains("A service already answers at", second.Error, StringComparison.Ordinal);
        ended.Ended(0);
        Assert.Contains("ends; this command takes its place", ended.Error, StringComparison.Ordinal);
    }

    private Task<Outcome> ListAsync() => _home.RunAsync("shelf", "list", "--shelves");

    private static int FreePort()
    {
        using var socket = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp);
        socket.Bind(new System.Net.IPEndPoint(System.Net.IPAddress.Loopback, 0));
        return ((System.Net.IPEndPoint)socket.LocalEndPoint!).Port;
    }

    private IEnumerable<int> ServicesOfThisHome() => Directory.EnumerateDirectories("/proc")
        .Select(folder => (id: Path.GetFileName(folder), folder))
        .Where(process => process.id.All(char.IsAsciiDigit))
        .Where(process => CommandLineOf(process.folder).Contains(_home.Socket, StringComparison.Ordinal))
        .Select(process => int.Parse(process.id, CultureInfo.InvariantCulture));

    private static string CommandLineOf(string folder)
    {
        try
        {
            return File.ReadAllText(Path.Combine(folder, "cmdline"));
        }
        catch (IOException)
        {
            return "";
        }
    }
}
