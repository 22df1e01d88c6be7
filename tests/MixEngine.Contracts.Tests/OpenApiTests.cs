using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace MixEngine.Contracts.Tests;

/// <summary>The OpenAPI document is valid, and what the real service answers is what it describes.</summary>
public class OpenApiTests
{
    private static readonly string Document = Path.Combine(Repository.Root, "protos", "openapi.json");

    [Fact]
    public async Task The_document_is_valid_and_the_service_keeps_to_it()
    {
        var folder = Directory.CreateTempSubdirectory("mx-").FullName;
        var port = FreePort();
        var service = Process.Start(
            Path.Combine(Repository.Built("MixEngine.Service"), "MixEngine.Service"),
            ["--socket", Path.Combine(folder, "s.sock"), "--data", folder, "--http", $"127.0.0.1:{port}"]);
        try
        {
            await AcceptingAsync(port);
            var (exitCode, output) = await Tools.RunAsync("openapi.mjs", Document, $"http://127.0.0.1:{port}");
            Assert.True(exitCode == 0, output);
            Assert.Matches("valid: [1-9][0-9]* operations\nheld: [1-9][0-9]* operations", output);
        }
        finally
        {
            service.Kill();
            await service.WaitForExitAsync(TestContext.Current.CancellationToken);
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task A_document_that_is_not_OpenAPI_is_found()
    {
        var broken = Path.GetTempFileName();
        try
        {
            var text = await File.ReadAllTextAsync(Document, TestContext.Current.CancellationToken);
            await File.WriteAllTextAsync(broken, text.Replace("\"in\": \"path\"", "\"in\": \"road\"", StringComparison.Ordinal), TestContext.Current.CancellationToken);
            var (exitCode, output) = await Tools.RunAsync("openapi.mjs", broken);
            Assert.True(exitCode != 0, output);
        }
        finally
        {
            File.Delete(broken);
        }
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    private static async Task AcceptingAsync(int port)
    {
        for (var attempt = 0; ; attempt++)
        {
            using var socket = new TcpClient();
            try
            {
                await socket.ConnectAsync(IPAddress.Loopback, port, TestContext.Current.CancellationToken);
                return;
            }
            catch (SocketException) when (attempt < 1000)
            {
                await Task.Delay(30, TestContext.Current.CancellationToken);
            }
        }
    }
}
