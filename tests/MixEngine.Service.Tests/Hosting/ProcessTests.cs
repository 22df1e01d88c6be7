using System.Net;
using System.Net.Sockets;
using Microsoft.Data.Sqlite;

namespace MixEngine.Service.Tests.Hosting;

/// <summary>Starting, ending, dying and starting again.</summary>
public sealed class ProcessTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task It_answers_as_soon_as_its_socket_accepts_and_only_its_user_can_open_it()
    {
        using var service = await ServiceProcess.StartReadyAsync(_folder);
        Assert.Empty((await ServiceProcess.AskAsync(_folder.Socket)).Shelves);
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(_folder.Socket));
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(Path.Combine(_folder.Data, "mixengine.db")));
        foreach (var folder in new[] { Path.GetDirectoryName(_folder.Socket)!, _folder.Data })
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute, File.GetUnixFileMode(folder));
        }
    }

    [Fact]
    public async Task It_ends_when_asked_and_takes_its_socket_with_it()
    {
        using var service = await ServiceProcess.StartReadyAsync(_folder);
        service.Terminate();
        var (exitCode, errors) = await service.EndAsync();
        Assert.Equal(0, exitCode);
        Assert.False(File.Exists(_folder.Socket));
        Assert.DoesNotContain("\"@l\":", errors);
    }

    [Fact]
    public async Task A_killed_service_is_followed_by_another_on_the_same_socket()
    {
        using (var killed = await ServiceProcess.StartReadyAsync(_folder))
        {
            killed.Kill();
            await killed.EndAsync();
        }

        Assert.True(File.Exists(_folder.Socket), "A killed service leaves its socket behind.");
        using var next = await ServiceProcess.StartReadyAsync(_folder);
        await ServiceProcess.AskAsync(_folder.Socket);
    }

    [Fact]
    public async Task Of_two_services_at_once_one_answers_and_the_other_says_why_not()
    {
        using var first = await ServiceProcess.StartReadyAsync(_folder);
        using var second = ServiceProcess.Start("--socket", _folder.Socket, "--data", _folder.Data);
        var (exitCode, errors) = await second.EndAsync();
        Assert.Equal(4, exitCode);
        Assert.Contains($"Another service answers on '{_folder.Socket}' already", errors);
        await ServiceProcess.AskAsync(_folder.Socket);
    }

    [Fact]
    public async Task Of_many_that_start_at_the_same_moment_exactly_one_goes_on()
    {
        var all = Enumerable.Range(0, 4).Select(_ => ServiceProcess.Start("--socket", _folder.Socket, "--data", _folder.Data)).ToArray();
        try
        {
            var ended = all.Select(service => service.EndAsync()).ToList();
            var codes = new List<int>();
            while (codes.Count < all.Length - 1)
            {
                var one = await Task.WhenAny(ended);
                ended.Remove(one);
                codes.Add((await one).ExitCode);
            }

            Assert.All(codes, code => Assert.Equal(4, code));
            await ServiceProcess.AcceptingAsync(_folder.Socket);
            await ServiceProcess.AskAsync(_folder.Socket);
            Assert.False(ended[0].IsCompleted);
        }
        finally
        {
            Array.ForEach(all, service => service.Dispose());
        }
    }

    [Fact]
    public async Task It_ends_by_itself_when_nobody_asks_anything()
    {
        using var service = await ServiceProcess.StartReadyAsync(_folder, "--idle-minutes", "0.2");
        await ServiceProcess.AskAsync(_folder.Socket);
        var (exitCode, errors) = await service.EndAsync();
        Assert.Equal(0, exitCode);
        Assert.Contains("Ending: no request for", errors);
        Assert.False(File.Exists(_folder.Socket));
    }

    [Fact]
    public async Task Every_fault_of_the_options_is_told_at_once()
    {
        using var service = ServiceProcess.Start(
            "--idle-minutes", "-1", "--grpc", "0.0.0.0:5180", "--http", "somewhere", "--data", "", "--socket", "/tmp/" + new string('x', 120), "--speed", "11");
        var (exitCode, errors) = await service.EndAsync();
        Assert.Equal(1, exitCode);
        Assert.Contains("--idle-minutes: -1 is not from 0 (never) to 10080.", errors);
        Assert.Contains("--grpc: 0.0.0.0:5180 can be reached from other machines", errors);
        Assert.Contains("--http: 'somewhere' is not an address and a port", errors);
        Assert.Contains("--data: the path is empty", errors);
        Assert.Contains("has 125 bytes; a socket's path may have 100", errors);
        Assert.Contains("--speed", errors);
    }

    [Fact]
    public async Task A_port_that_is_taken_is_named()
    {
        using var taken = new TcpListener(IPAddress.Loopback, 0);
        taken.Start();
        using var service = ServiceProcess.Start("--socket", _folder.Socket, "--data", _folder.Data, "--http", taken.LocalEndpoint.ToString()!);
        var (exitCode, errors) = await service.EndAsync();
        Assert.Equal(1, exitCode);
        Assert.Contains(taken.LocalEndpoint.ToString()!, errors);
        Assert.DoesNotContain("   at ", errors);
        Assert.False(File.Exists(_folder.Socket));
    }

    [Fact]
    public async Task A_database_of_a_newer_service_is_refused_in_one_sentence()
    {
        Directory.CreateDirectory(_folder.Data);
        using (var connection = new SqliteConnection($"Data Source={Path.Combine(_folder.Data, "mixengine.db")};Pooling=False"))
        {
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = "CREATE TABLE schema_version (version INTEGER); INSERT INTO schema_version VALUES (4711)";
            command.ExecuteNonQuery();
        }

        using var service = ServiceProcess.Start("--socket", _folder.Socket, "--data", _folder.Data);
        var (exitCode, errors) = await service.EndAsync();
        Assert.Equal(1, exitCode);
        Assert.Contains("newer MixEngine", errors);
        Assert.DoesNotContain("   at ", errors);
    }

    [Fact]
    public async Task A_folder_that_cannot_be_made_is_named()
    {
        var file = Path.Combine(_folder.Path, "file");
        await File.WriteAllTextAsync(file, "", TestContext.Current.CancellationToken);
        using var service = ServiceProcess.Start("--socket", _folder.Socket, "--data", Path.Combine(file, "data"));
        var (exitCode, errors) = await service.EndAsync();
        Assert.Equal(1, exitCode);
        Assert.Contains(file, errors);
        Assert.DoesNotContain("   at ", errors);
    }
}
