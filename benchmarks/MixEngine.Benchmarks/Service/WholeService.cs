using System.Diagnostics;
using System.Globalization;
using System.Net.Sockets;
using System.Text;
using Google.Protobuf;
using Grpc.Net.Client;
using MixEngine.Colorimetry;
using MixEngine.Core;
using MixEngine.Service.Hosting;
using MixEngine.Service.Options;
using MixEngine.V1;

namespace MixEngine.Benchmarks.Service;

/// <summary>A match through the whole service, gRPC on its socket, beside the engine alone; then many callers at once.</summary>
internal static class WholeService
{
    private const int Paints = 300;

    public static async Task RunAsync()
    {
        var folder = Directory.CreateTempSubdirectory("mixengine-benchmark");
        var socket = Path.Combine(folder.FullName, "s");
        try
        {
            await using var service = await RunningService.StartAsync(
                new ServiceOptions(new SocketOptions { Path = socket }, new DataOptions { Directory = Path.Combine(folder.FullName, "data") }), _ => { });
            using var channel = Channel(socket);

            // The same invented colours on its shelf and before the engine.
            var random = new Random(1);
            var hexes = Enumerable.Range(0, Paints).Select(_ => new HexColor((byte)random.Next(10, 250), (byte)random.Next(10, 250), (byte)random.Next(10, 250))).ToArray();
            var shelves = new V1.Shelves.ShelvesClient(channel);
            foreach (var (name, count) in new[] { ("large", Paints), ("small", 3) })
            {
                var table = hexes.Take(count).Aggregate(new StringBuilder("name,hex,opacity\n"), (text, hex) => text.Append(CultureInfo.InvariantCulture, $"pebble {text.Length},{hex},opaque\n"));
                await shelves.ImportShelfAsync(new ImportShelfRequest { Shelf = name, FileName = "pebbles.csv", Content = ByteString.CopyFromUtf8(table.ToString()) });
            }

            var shelf = hexes.Select((hex, i) => ColorGrade.Characterize(
                new Core.Paint { Id = $"pebble-{i}", Name = $"pebble {i}", Optics = AbsorptionScattering.Clear, Grade = Core.Grade.Color, Opacity = OpacityWord.Opaque }, hex.ToXyz(), ViewingCondition.Default, ColorGrade.HexReading)).ToArray();

            // One caller: the engine alone and the whole call, in turn.
            var client = new Mixing.MixingClient(channel);
            var targets = Enumerable.Range(0, 24).Select(_ => new HexColor((byte)random.Next(40, 220), (byte)random.Next(40, 220), (byte)random.Next(40, 220)).ToString()).ToArray();
            List<double> engine = [], total = [], rest = [];
            for (var round = 0; round < 2; round++)
            {
                (engine, total, rest) = ([], [], []);
                foreach (var hex in targets)
                {
                    engine.Add(Stopwatches.Seconds(() => RecipeSearch.Find(MatchTarget.OfColor(HexColor.Parse(hex).ToXyz(), ViewingCondition.Default), shelf), out _));
                    total.Add(await CallAsync(client, "large", hex));
                    rest.Add(await CallAsync(client, "small", hex));
                }
            }

            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"service paints={Paints} drops=6 engine_ms={Median(engine):0.0} total_ms={Median(total):0.0} rest_ms={Median(total) - Median(engine):0.0} three_paints_total_ms={Median(rest):0.0}"));

            // Many callers at once, 96 calls in all.
            foreach (var callers in new[] { 1, 8, 32 })
            {
                var start = Stopwatch.GetTimestamp();
                var times = await Task.WhenAll(Enumerable.Range(0, callers).Select(async caller =>
                {
                    var own = new List<double>();
                    for (var i = 0; i < 96 / callers; i++)
                    {
                        own.Add(await CallAsync(client, "large", targets[(caller + i * callers) % targets.Length]));
                    }

                    return own;
                }));
                var each = times.SelectMany(own => own).ToArray();
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                    $"service callers={callers} calls={each.Length} median_ms={Median(each):0.0} p95_ms={Stopwatches.Quantile(each, 0.95) * 1e3:0.0} calls_per_s={each.Length / Stopwatch.GetElapsedTime(start).TotalSeconds:0.0}"));
            }
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static async Task<double> CallAsync(Mixing.MixingClient client, string shelf, string hex)
    {
        var start = Stopwatch.GetTimestamp();
        await client.MatchAsync(new MatchRequest { Shelf = shelf, Target = new ColorInput { Text = hex } }, deadline: DateTime.UtcNow.AddMinutes(1));
        return Stopwatch.GetElapsedTime(start).TotalSeconds;
    }

    private static double Median(IEnumerable<double> seconds) => Stopwatches.Quantile(seconds, 0.5) * 1e3;

    private static GrpcChannel Channel(string path) => GrpcChannel.ForAddress("http://localhost", new GrpcChannelOptions
    {
        HttpHandler = new SocketsHttpHandler
        {
            ConnectCallback = async (_, cancel) =>
            {
                var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
                await socket.ConnectAsync(new UnixDomainSocketEndPoint(path), cancel);
                return new NetworkStream(socket, ownsSocket: true);
            },
        },
        DisposeHttpClient = true,
    });
}
