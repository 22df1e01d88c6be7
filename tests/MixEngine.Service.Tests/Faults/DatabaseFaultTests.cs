using System.Diagnostics;
using System.Globalization;
using Google.Protobuf;
using Grpc.Core;
using Grpc.Net.Client;
using Microsoft.Data.Sqlite;
using MixEngine.Service.Data;
using MixEngine.Service.Tests.Hosting;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Faults;

/// <summary>What befalls the database's file: the caller is told, nothing is written by halves, reading goes on where it can, and all goes on when the fault is over.</summary>
public sealed class DatabaseFaultTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly DirectoryInfo _disk = Directory.CreateTempSubdirectory("mx-disk-");

    private string Database => Path.Combine(_folder.Data, "mixengine.db");

    public void Dispose()
    {
        _folder.Dispose();
        _disk.Delete(recursive: true);
    }

    [Fact]
    public async Task A_lock_that_another_process_holds_is_waited_for_and_then_told()
    {
        using var service = await ServiceProcess.StartReadyAsync(_folder);
        using var channel = UnixChannel.To(_folder.Socket);
        Import(channel, "tide", Coast.Table);
        using (var other = new SqliteConnection($"Data Source={Database};Pooling=False"))
        {
            other.Open();
            using var held = other.BeginTransaction(deferred: false);

            // Whoever waits short enough never notices: here for the whole patience of the service.
            Refused(channel, StatusCode.Unavailable, "Another process has been writing to the database for 10 seconds. Nothing was stored; try again.");
            Assert.Equal(["tide"], Shelves(channel));
        }

        AllIsWell(channel, Database);
    }

    [Fact]
    public async Task A_file_that_may_not_grow_is_told_and_the_service_goes_on()
    {
        using var service = ServiceProcess.StartBy("trap '' XFSZ; exec \"$0\" \"$@\"", "--socket", _folder.Socket, "--data", _folder.Data);
        await ServiceProcess.AcceptingAsync(_folder.Socket);
        using var channel = UnixChannel.To(_folder.Socket);
        Import(channel, "tide", Coast.Table);
        Run("prlimit", "--pid", service.Id.ToString(CultureInfo.InvariantCulture), $"--fsize={new FileInfo(Database + "-wal").Length}:unlimited");
        Refused(channel, StatusCode.ResourceExhausted, "Nothing was stored; see to the disk, and whether it is full.");
        Assert.Equal(["tide"], Shelves(channel));
        Run("prlimit", "--pid", service.Id.ToString(CultureInfo.InvariantCulture), "--fsize=unlimited:unlimited");
        AllIsWell(channel, Database);
    }

    [Fact]
    public async Task A_full_disk_and_one_that_can_only_be_read_are_told()
    {
        if (!TryRun("mount", "-t", "tmpfs", "-o", "size=4m", "tmpfs", _disk.FullName))
        {
            Assert.Skip("No small disk can be mounted here.");
        }

        try
        {
            var data = Path.Combine(_disk.FullName, "data");
            var database = Path.Combine(data, "mixengine.db");
            using (var service = ServiceProcess.Start("--socket", _folder.Socket, "--data", data))
            {
                await ServiceProcess.AcceptingAsync(_folder.Socket);
                using var channel = UnixChannel.To(_folder.Socket);
                Import(channel, "tide", Coast.Table);
                var filler = Path.Combine(_disk.FullName, "filler");
                Fill(filler);
                Refused(channel, StatusCode.ResourceExhausted, "There is no room left on the database's disk. Nothing was stored; make room and try again.");
                Assert.Equal(["tide"], Shelves(channel));
                File.Delete(filler);
                AllIsWell(channel, database);
                service.Terminate();
                await service.EndAsync();
            }

            Run("mount", "-o", "remount,ro", _disk.FullName);
            using var refused = ServiceProcess.Start("--socket", _folder.Socket, "--data", data);
            var (exitCode, errors) = await refused.EndAsync();
            Assert.Equal(1, exitCode);
            Assert.Contains(data, errors, StringComparison.Ordinal);
            Assert.DoesNotContain("   at ", errors, StringComparison.Ordinal);
        }
        finally
        {
            Run("umount", "-l", _disk.FullName);
        }
    }

    [Fact]
    public async Task A_file_that_is_taken_away_is_told_and_never_made_anew()
    {
        using var service = await ServiceProcess.StartReadyAsync(_folder);
        using var channel = UnixChannel.To(_folder.Socket);
        Import(channel, "tide", Coast.Table);
        var away = Path.Combine(_folder.Path, "away.db");
        File.Move(Database, away);
        Refused(channel, StatusCode.ResourceExhausted, "The database's file was moved, replaced or deleted while the service used it.");
        Assert.Equal(StatusCode.ResourceExhausted, Assert.Throws<RpcException>(() => Shelves(channel)).StatusCode);
        Assert.False(File.Exists(Database));

        // Nor is another file that came in its place taken for it.
        File.WriteAllBytes(Database, []);
        Refused(channel, StatusCode.ResourceExhausted, "moved, replaced or deleted");
        File.Delete(Database);
        File.Move(away, Database);
        AllIsWell(channel, Database);
    }

    private static void Import(GrpcChannel channel, string shelf, string table) => new V1.Shelves.ShelvesClient(channel).ImportShelf(
        new ImportShelfRequest { Shelf = shelf, FileName = "coast.csv", Content = ByteString.CopyFromUtf8(table) }, deadline: DateTime.UtcNow.AddMinutes(2));

    private static string[] Shelves(GrpcChannel channel) => [.. new V1.Shelves.ShelvesClient(channel).ListShelves(new ListShelvesRequest()).Shelves.Select(shelf => shelf.Shelf)];

    private static void Refused(GrpcChannel channel, StatusCode code, string words)
    {
        var fault = Assert.Throws<RpcException>(() => Import(channel, "ebb", Coast.Large(2000)));
        Assert.Equal(code, fault.StatusCode);
        Assert.Contains(words, fault.Status.Detail, StringComparison.Ordinal);
    }

    private static void AllIsWell(GrpcChannel channel, string database)
    {
        Assert.Equal(["tide"], Shelves(channel));
        Import(channel, "ebb", Coast.Large(2000));
        Assert.Equal(["ebb", "tide"], Shelves(channel));
        Assert.NotEmpty(new Mixing.MixingClient(channel).Predict(new PredictRequest { Shelf = "tide", Recipe = new RecipeInput { Text = "kelp" } }).Color.Hex);
        var output = new StringWriter();
        Assert.True(new DataCommands(new Dictionary<string, string>(), output, output).Invoke(["check", "--data", Path.GetDirectoryName(database)!]) == 0, output.ToString());
    }

    private static void Fill(string path)
    {
        using var file = new FileStream(path, FileMode.CreateNew, FileAccess.Write, FileShare.None, bufferSize: 0);
        try
        {
            while (true)
            {
                file.Write(new byte[4096]);
            }
        }
        catch (IOException)
        {
            // The disk is full.
        }
    }

    private static void Run(string program, params string[] arguments) => Assert.True(TryRun(program, arguments), $"{program} {string.Join(' ', arguments)} failed.");

    private static bool TryRun(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
        process.WaitForExit();
        return process.ExitCode == 0;
    }
}
