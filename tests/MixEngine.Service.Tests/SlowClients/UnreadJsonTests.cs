using System.Diagnostics;
using System.Globalization;
using System.Net.Sockets;
using System.Text;
using Google.Protobuf;
using MixEngine.Service.Options;
using MixEngine.V1;

namespace MixEngine.Service.Tests.SlowClients;

/// <summary>Clients over HTTP/1.1 that stop reading in the middle of an answer, where there are no pings.</summary>
public sealed class UnreadJsonTests : IAsyncLifetime
{
    // A connection that takes nothing is ended after sixteen seconds.
    private readonly TestService _service = new() { Options = options => options with { Silence = new SilenceOptions { Seconds = 4 } } };

    public ValueTask InitializeAsync()
    {
        // The frameworks' own words on a connection that its kernel has ended.
        _service.Logs.Declare(entry => entry.Exception is SocketException { SocketErrorCode: SocketError.TimedOut });
        return _service.InitializeAsync();
    }

    public ValueTask DisposeAsync() => _service.DisposeAsync();

    public static TheoryData<string> Calls => ["/v1/batch", "/v1/match:progress"];

    [Theory]
    [MemberData(nameof(Calls))]
    public async Task A_connection_that_takes_nothing_of_its_answer_is_let_go(string path)
    {
        using var client = Ask(path, path == "/v1/batch" ? Large() : Long());
        Assert.Equal(1, Connections());

        // Of megabytes the service holds the rest; a smaller answer is all with its kernel, which lets go of it as well.
        await Waiting.UntilAsync(() => _service.Requests.Count == 0 && Connections() == 0, "What nobody reads is still held.", everyMilliseconds: 200);
    }

    [Fact]
    public async Task One_that_is_read_slowly_for_longer_than_that_arrives_whole()
    {
        using var client = Ask("/v1/batch", Large());
        var (piece, end, start) = (new byte[64 << 10], "", Stopwatch.GetTimestamp());
        while (await client.ReceiveAsync(piece, TestContext.Current.CancellationToken).AsTask().WaitAsync(Waiting.Patience) is > 0 and var read)
        {
            var text = end + Encoding.ASCII.GetString(piece, 0, read);
            end = text[Math.Max(0, text.Length - 5)..];
            if (end == "0\r\n\r\n")
            {
                return;
            }

            await Task.Delay(Stopwatch.GetElapsedTime(start) < TimeSpan.FromSeconds(20) ? 1000 : 0, TestContext.Current.CancellationToken);
        }

        Assert.Fail("Its connection was ended.");
    }

    // Its kernel takes as little as it can be made to.
    private Socket Ask(string path, IMessage message)
    {
        var address = new Uri(_service.HttpAddress);
        var socket = new Socket(SocketType.Stream, ProtocolType.Tcp) { ReceiveBufferSize = 4096 };
        socket.Connect(address.Host, address.Port);
        var body = JsonFormatter.Default.Format(message);
        socket.Send(Encoding.UTF8.GetBytes(string.Create(CultureInfo.InvariantCulture, $"POST {path} HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: {body.Length}\r\n\r\n{body}")));
        return socket;
    }

    // What the kernel has of open connections of the port: proc(5).
    private int Connections()
    {
        var port = FormattableString.Invariant($":{new Uri(_service.HttpAddress).Port:X4}");
        return new[] { "/proc/net/tcp", "/proc/net/tcp6" }.Where(File.Exists).SelectMany(File.ReadLines)
            .Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries)).Count(fields => fields[1].EndsWith(port, StringComparison.Ordinal) && fields[3] == "01");
    }

    // As many recipes as can be asked for, in a stream.
    private static MatchRequest Long() => new()
    {
        Shelf = "home", Target = new ColorInput { Text = "#5a6b3c" }, Drops = 30, Tolerance = 100, Answers = 100, View = new View { WithReflectance = true },
        Lights = { new[] { "D65", "A", "D50" }.Select(name => new MatchLight { Name = name }) },
    };

    // Megabytes: more than the kernels on both sides take.
    private static ComputeRequest Large() => new()
    {
        Shelf = "home",
        Items =
        {
            Enumerable.Range(0, 200).Select(i => new BatchItem
            {
                Key = $"{i}",
                Glaze = new GlazeRequest { Recipe = BatchTests.Text("tide pool"), MediumParts = 6, Coats = 30, Over = new Surface { Primer = "grey" }, View = new View { WithReflectance = true } },
            }),
        },
    };
}
