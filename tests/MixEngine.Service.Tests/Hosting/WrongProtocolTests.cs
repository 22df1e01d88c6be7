using System.Net;
using Grpc.Core;
using Grpc.Net.Client;
using Microsoft.Extensions.Logging;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Hosting;

/// <summary>Case 18: who speaks the other HTTP to a port learns so.</summary>
public sealed class WrongProtocolTests(TestService service) : IClassFixture<TestService>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Grpc_at_the_json_port_learns_where_grpc_is()
    {
        service.Logs.Declare(entry => entry.Level == LogLevel.Warning && entry.Category.EndsWith("Http2Refusal", StringComparison.Ordinal));
        using var channel = GrpcChannel.ForAddress(service.HttpAddress);
        var refusal = await Assert.ThrowsAsync<RpcException>(() => new Mixing.MixingClient(channel).PredictAsync(new PredictRequest()).ResponseAsync);
        Assert.Equal(StatusCode.Unimplemented, refusal.StatusCode);
        Assert.Contains("This port speaks HTTP/1.1 (JSON) only. For HTTP/2 (gRPC) use 127.0.0.1:", refusal.Status.Detail);
    }

    [Fact]
    public async Task Plain_http2_at_the_json_port_gets_505_and_a_reason()
    {
        service.Logs.Declare(entry => entry.Level == LogLevel.Warning && entry.Category.EndsWith("Http2Refusal", StringComparison.Ordinal));
        using var http = new HttpClient { DefaultRequestVersion = HttpVersion.Version20, DefaultVersionPolicy = HttpVersionPolicy.RequestVersionExact };
        using var answer = await http.GetAsync(service.HttpAddress + "/v1/shelves", Stop);
        Assert.Equal(HttpStatusCode.HttpVersionNotSupported, answer.StatusCode);
        Assert.Contains("HTTP/1.1 (JSON) only", string.Join(' ', answer.Headers.GetValues("grpc-message")));
    }

    [Fact]
    public async Task Http1_at_the_grpc_port_learns_so()
    {
        using var http = new HttpClient();
        using var answer = await http.GetAsync(service.GrpcAddress + "/v1/shelves", Stop);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("HTTP/2 only", await answer.Content.ReadAsStringAsync(Stop));
    }

    [Fact]
    public async Task The_grpc_port_answers_grpc()
    {
        using var channel = GrpcChannel.ForAddress(service.GrpcAddress);
        Assert.NotEmpty((await new V1.Shelves.ShelvesClient(channel).ListShelvesAsync(new ListShelvesRequest(), cancellationToken: Stop)).Shelves);
    }

    [Fact]
    public async Task A_request_that_comes_in_crumbs_is_answered_all_the_same()
    {
        var address = new Uri(service.HttpAddress);
        using var tcp = new System.Net.Sockets.TcpClient();
        await tcp.ConnectAsync(address.Host, address.Port, Stop);
        await using var stream = tcp.GetStream();

        // "P" might still become the beginning of HTTP/2.
        foreach (var crumb in "POST /v1/predict HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: 2\r\nConnection: close\r\n\r\n{}".Chunk(1))
        {
            await stream.WriteAsync(new[] { (byte)crumb[0] }, Stop);
        }

        using var reader = new StreamReader(stream);
        Assert.StartsWith("HTTP/1.1 400", await reader.ReadLineAsync(Stop));
    }
}
