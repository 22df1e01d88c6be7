using System.Diagnostics;
using System.Globalization;
using Grpc.Core;
using Grpc.Net.Client;
using MixEngine.V1;

namespace MixEngine.ServiceLoad;

/// <summary>Mixed work for a while, rude clients among it, and what the service's process holds meanwhile.</summary>
internal static class Soak
{
    private const int Callers = 8;

    /// <returns>Whether nothing failed but what was meant to, and memory stayed flat.</returns>
    public static async Task<bool> RunAsync(TimeSpan duration)
    {
        using var service = await Server.StartServiceAsync();
        using var channel = service.Channel();
        await InventedShelf.ImportAsync(channel);
        var calls = new int[Work.Length];
        var failures = new Dictionary<string, int>();
        var samples = new List<(double Minute, double MemoryMb, int Handles, int Threads)>();
        using var end = new CancellationTokenSource(duration);
        var watch = Stopwatch.StartNew();

        async Task CallAsync(int caller)
        {
            // Each goes round all kinds of work, from a place of its own.
            for (var turn = caller; !end.IsCancellationRequested; turn++)
            {
                var kind = turn % Work.Length;
                try
                {
                    await Work[kind].Do(service, channel, turn * Callers + caller);
                    Interlocked.Increment(ref calls[kind]);
                }
                catch (RpcException failure)
                {
                    lock (failures)
                    {
                        var text = $"{Work[kind].Name}: {failure.StatusCode} {failure.Status.Detail}";
                        failures[text] = failures.GetValueOrDefault(text) + 1;
                    }
                }
            }
        }

        async Task SampleAsync()
        {
            Console.WriteLine("minute  memory MB  handles  threads     calls   CPU s");
            for (var next = 0.0; !end.IsCancellationRequested && !service.HasExited; next += 0.5)
            {
                await Task.Delay(TimeSpan.FromMinutes(Math.Max(0, next - watch.Elapsed.TotalMinutes)));
                var (memory, handles, threads) = service.Holds();
                samples.Add((watch.Elapsed.TotalMinutes, memory, handles, threads));
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{watch.Elapsed.TotalMinutes,6:0.0} {memory,10:0.0} {handles,8} {threads,8} {calls.Sum(),9} {service.Cpu().TotalSeconds,7:0}"));
            }
        }

        await Task.WhenAll([SampleAsync(), .. Enumerable.Range(0, Callers).Select(caller => Task.Run(() => CallAsync(caller)))]);

        Console.WriteLine($"work: {string.Join(", ", Work.Select((work, kind) => $"{work.Name} {calls[kind]}"))}");
        foreach (var (text, count) in failures)
        {
            Console.WriteLine($"failed {count} times: {text}");
        }

        // The second quarter has warmed up; the last must hold no more, but for the noise of the collector.
        double Typical(double from, double to, Func<(double Minute, double MemoryMb, int Handles, int Threads), double> of) =>
            samples.Where(s => s.Minute >= from * duration.TotalMinutes && s.Minute <= to * duration.TotalMinutes).Select(of).Order().ToArray() is { Length: > 0 } some ? some[some.Length / 2] : double.NaN;
        var memory = (Then: Typical(0.25, 0.5, s => s.MemoryMb), Now: Typical(0.75, 1, s => s.MemoryMb));
        var handles = (Then: Typical(0.25, 0.5, s => s.Handles), Now: Typical(0.75, 1, s => s.Handles));
        var flat = memory.Now <= 1.1 * memory.Then && handles.Now <= handles.Then + 20;
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"soak minutes={duration.TotalMinutes:0.#} memory_second_quarter_mb={memory.Then:0.0} memory_last_quarter_mb={memory.Now:0.0} handles_second_quarter={handles.Then:0} handles_last_quarter={handles.Now:0} failures={failures.Values.Sum()} flat={(flat ? "yes" : "no")}"));
        return flat && failures.Count == 0 && !service.HasExited;
    }

    private static readonly (string Name, Func<Server, GrpcChannel, int, Task> Do)[] Work =
    [
        ("predict", (_, channel, i) => new Mixing.MixingClient(channel).PredictAsync(new PredictRequest { Shelf = InventedShelf.Name, Recipe = Mix(i) }).ResponseAsync),
        ("ramp", (_, channel, i) => new Mixing.MixingClient(channel).RampAsync(new RampRequest
        {
            Shelf = InventedShelf.Name, Through = { Only(i), Only(i + 1) }, Steps = 4,
        }).ResponseAsync),
        ("match", (_, channel, i) => new Mixing.MixingClient(channel).MatchAsync(new MatchRequest
        {
            Shelf = InventedShelf.Name, Target = Color(i), Paints = 2, Drops = 5,
        }).ResponseAsync),
        ("glaze", (_, channel, i) => new Mixing.MixingClient(channel).GlazeAsync(new GlazeRequest
        {
            Shelf = InventedShelf.Name, Recipe = Only(i), MediumParts = 3, Coats = 2, Over = new Surface { Primer = "grey" },
        }).ResponseAsync),
        ("cover", (_, channel, i) => new Mixing.MixingClient(channel).CoverAsync(new CoverRequest { Shelf = InventedShelf.Name, Recipe = Only(i) }).ResponseAsync),
        ("import a shelf", (_, channel, i) => InventedShelf.ImportAsync(channel, $"shelf-{i % 40}")),
        ("swatch", SwatchAsync),
        ("batch", BatchAsync),
        ("refused", RefusedAsync),
        ("left in the middle", LeftAsync),
    ];

    private static RecipeInput Only(int i) => new() { Text = InventedShelf.Paint(i) };

    private static RecipeInput Mix(int i) => new() { Text = $"{1 + i % 4} {InventedShelf.Paint(i)} + 1 {InventedShelf.Paint(7 * i + 1)}" };

    private static ColorInput Color(int i) => new() { Text = $"#{37 * i & 0xff:x2}{101 * i & 0xff:x2}{59 * i & 0xff:x2}" };

    // On a shelf of the caller's own, so that nobody else takes the swatch away.
    private static async Task SwatchAsync(Server service, GrpcChannel channel, int i)
    {
        var shelf = $"swatches-{i % Callers}";
        await InventedShelf.ImportAsync(channel, shelf);
        var swatches = new Swatches.SwatchesClient(channel);
        var added = await swatches.AddSwatchAsync(new AddSwatchRequest { Shelf = shelf, Swatch = new Swatch { Recipe = Only(i), Color = Color(i), Source = "photo" } });
        await swatches.RemoveSwatchAsync(new RemoveSwatchRequest { Shelf = shelf, Id = added.Fit.Swatch.Id });
    }

    private static async Task BatchAsync(Server service, GrpcChannel channel, int i)
    {
        var client = new Batch.BatchClient(channel);
        var batch = $"soak-{i}";
        using var stream = client.Solve();
        await stream.RequestStream.WriteAsync(new SolveRequest { Open = new OpenBatch { Batch = batch, Shelf = InventedShelf.Name } });
        for (var item = 0; item < 50; item++)
        {
            await stream.RequestStream.WriteAsync(new SolveRequest { Item = new BatchItem { Key = $"{item}", Predict = new PredictRequest { Recipe = Mix(i + item) } } });
        }

        await stream.RequestStream.WriteAsync(new SolveRequest { Close = new CloseBatch() });
        await stream.RequestStream.CompleteAsync();
        await foreach (var _ in stream.ResponseStream.ReadAllAsync())
        {
        }

        await client.DiscardBatchAsync(new DiscardBatchRequest { Batch = batch });
    }

    private static async Task RefusedAsync(Server service, GrpcChannel channel, int i)
    {
        try
        {
            await new Mixing.MixingClient(channel).PredictAsync(new PredictRequest { Shelf = InventedShelf.Name, Recipe = new RecipeInput { Text = $"no such paint {i}" } });
        }
        catch (RpcException refusal) when (refusal.StatusCode == StatusCode.InvalidArgument)
        {
        }
    }

    // A client on a connection of its own that asks much, reads nothing, and is gone.
    private static async Task LeftAsync(Server service, GrpcChannel channel, int i)
    {
        using var own = service.Channel();
        using var stream = new Batch.BatchClient(own).Solve();
        await stream.RequestStream.WriteAsync(new SolveRequest { Open = new OpenBatch { Batch = $"left-{i % 100}", Shelf = InventedShelf.Name } });
        await stream.RequestStream.WriteAsync(new SolveRequest { Item = new BatchItem { Key = $"{i}", Match = new MatchRequest { Target = Color(i), Paints = 2 } } });
    }
}
