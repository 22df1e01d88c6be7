using MixEngine.Service.Options;

namespace MixEngine.Service.Tests.Options;

/// <summary>What is said to the service: on the command line, in the environment, in a file.</summary>
public sealed class SettingsTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly Dictionary<string, string> _environment = new() { ["MIXENGINE_HOME"] = "/nowhere/mixengine" };

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task The_command_line_goes_before_the_environment_and_the_environment_before_the_file()
    {
        var file = File("""
            # One service for several tools.
            idle-minutes = 1
            drain-seconds = 2
            deadline-seconds = 3.5
            metrics = true
            grpc = "127.0.0.1:7001"
            """);
        _environment["MIXENGINE_IDLE_MINUTES"] = "10";
        _environment["MIXENGINE_DRAIN_SECONDS"] = "20";
        var options = await Read("--config", file, "--idle-minutes", "100");
        Assert.Equal(100, options.Idle.Minutes);
        Assert.Equal(20, options.Drain.Seconds);
        Assert.Equal(TimeSpan.FromSeconds(3.5), options.Deadline.WhereNoneIsGiven);
        Assert.True(options.Telemetry.Metrics);
        Assert.Equal("127.0.0.1:7001", options.Listen.Grpc!.ToString());
        Assert.Null(options.Listen.Http);
    }

    [Fact]
    public async Task Every_setting_can_be_said_in_each_place()
    {
        foreach (var setting in SettingList.All.Where(setting => setting != SettingList.Config))
        {
            // A word that no setting takes, so that each place is seen to be read; paths and texts take any word.
            string[] fileFaults = await Faults("--config", File($"{setting.Name} = [1]"));
            Assert.Contains(fileFaults, fault => fault.Contains($"line 1, {setting.Name}: give one value", StringComparison.Ordinal));
            _environment[setting.Variable] = "\0";
            Assert.Equal("\0", new SettingReader(_ => null, _environment).Text(setting));
            _environment.Remove(setting.Variable);
        }
    }

    [Fact]
    public async Task All_faults_of_all_places_are_told_together_with_file_and_line()
    {
        var file = File("""
            idle-minuts = 10
            drain-seconds = "soon"

            http = "127.0.0.1"
            colour = "red"
            metrics = "perhaps"
            log = "xml"
            grpc = ["127.0.0.1:1"]
            """);
        _environment["MIXENGINE_DRAIN_NOTICE_SECOND"] = "4";
        _environment["MIXENGINE_DEADLINE_SECONDS"] = "-4";
        var faults = await Faults("--config", file, "--https", "127.0.0.1:7443", "--idel-minutes", "3");
        string[] expected =
        [
            "'--idel-minutes' is not an option. Did you mean --idle-minutes?",
            "'3' is not an option.",
            $"{file}, line 1: 'idle-minuts' is not a setting. Did you mean idle-minutes?",
            $"{file}, line 2, drain-seconds: 'soon' is not a number",
            $"{file}, line 4, http: '127.0.0.1' is not an address and a port",
            $"{file}, line 5: 'colour' is not a setting. --help lists all of them.",
            $"{file}, line 6, metrics: 'perhaps' is neither true nor false.",
            $"{file}, line 7, log: 'xml' is not known; use text or json.",
            $"{file}, line 8, grpc: give one value",
            "MIXENGINE_DRAIN_NOTICE_SECOND is not a setting. Did you mean MIXENGINE_DRAIN_NOTICE_SECONDS?",
            "--https: --https needs --certificate",
            "MIXENGINE_DEADLINE_SECONDS: -4 is not above 0",
        ];
        Assert.All(expected, words => Assert.Contains(faults, fault => fault.StartsWith(words, StringComparison.Ordinal)));
        Assert.Equal(expected.Length, faults.Length);
    }

    [Theory]
    [InlineData("metrics = yes", "line 1: ")]
    [InlineData("drain-seconds = 1\ndrain-seconds = 2\n", "line 2: ")]
    [InlineData("metrics = true\nhttp = 127.0.0.1:80\n", "line 2: ")]
    [InlineData("[listen]\nhttp = \"127.0.0.1:80\"\n", "'listen' is not a setting")]
    public async Task What_is_no_toml_is_told_by_its_line(string text, string words) =>
        Assert.Contains(words, (await Faults("--config", File(text)))[0]);

    [Fact]
    public async Task A_file_that_is_not_there_is_named()
    {
        var faults = await Faults("--config", "/nowhere/mixengine.toml");
        Assert.StartsWith("--config: the file cannot be read: ", Assert.Single(faults));
        Assert.Contains("/nowhere/mixengine.toml", faults[0]);
    }

    [Fact]
    public async Task A_path_in_a_file_begins_where_the_file_is()
    {
        var options = await Read("--config", File("data = \"shelves\"\nsocket = \"/run/mixengine.sock\"\n"));
        Assert.Equal(Path.Combine(_folder.Path, "shelves"), options.Data.Directory);
        Assert.Equal("/run/mixengine.sock", options.Socket.Path);
    }

    /// <summary>Orchestrators name variables after services, and tools after themselves.</summary>
    [Theory]
    [InlineData("MIXENGINE_SERVICE_HOST")]
    [InlineData("MIXENGINE_SERVICE_PORT")]
    [InlineData("MIXENGINE_PORT")]
    [InlineData("MIXENGINE_PORT_7443_TCP_ADDR")]
    [InlineData("MIXENGINE_SERVICE")]
    [InlineData("MIXENGINE_KEY")]
    [InlineData("MIXENGINE_MIXTURES")]
    [InlineData("MIXENGINE_ROOT")]
    public async Task A_variable_of_somebody_else_is_left_alone(string variable)
    {
        _environment[variable] = "tcp://10.0.0.1:7443";
        await Read();
    }

    [Fact]
    public async Task Telemetry_follows_its_standard_variables()
    {
        Assert.False((await Read()).Telemetry.IsSent);
        _environment["OTEL_EXPORTER_OTLP_ENDPOINT"] = "http://127.0.0.1:4317";
        Assert.True((await Read()).Telemetry.IsSent);
        _environment["OTEL_EXPORTER_OTLP_ENDPOINT"] = "collector";
        Assert.Contains("OTEL_EXPORTER_OTLP_ENDPOINT is 'collector'", Assert.Single(await Faults()));
    }

    [Fact]
    public async Task A_password_is_not_taken_from_the_command_line()
    {
        var faults = await Faults("--certificate-password", "hunter2");
        Assert.Contains("--certificate-password: every user of this machine could read it there. Say it as MIXENGINE_CERTIFICATE_PASSWORD", faults[0]);
    }

    [Fact]
    public async Task A_switch_may_stand_alone_or_with_its_value()
    {
        Assert.True((await Read("--metrics")).Telemetry.Metrics);
        Assert.False((await Read("--metrics", "false")).Telemetry.Metrics);
    }

    private string File(string text)
    {
        var path = Path.Combine(_folder.Path, "service.toml");
        System.IO.File.WriteAllText(path, text);
        return path;
    }

    private async Task<ServiceOptions> Read(params string[] arguments)
    {
        ServiceOptions? read = null;
        var errors = new StringWriter();
        var code = await new CommandLine(_environment, options =>
        {
            read = options;
            return Task.FromResult(0);
        }).InvokeAsync(arguments, errors);
        Assert.True(code == 0, errors.ToString());
        return read!;
    }

    private async Task<string[]> Faults(params string[] arguments)
    {
        var errors = new StringWriter();
        Assert.Equal(1, await new CommandLine(_environment, _ => throw new InvalidOperationException("It runs.")).InvokeAsync(arguments, errors));
        return errors.ToString().Split('\n', StringSplitOptions.RemoveEmptyEntries);
    }
}
