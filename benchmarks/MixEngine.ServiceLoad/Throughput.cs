using System.Globalization;
using MixEngine.V1;

namespace MixEngine.ServiceLoad;

/// <summary>Predict side by side with an empty echo: rounds alternate, so that what else the machine does falls on both.</summary>
internal static class Throughput
{
    private const int Rounds = 7;

    private static readonly TimeSpan Duration = TimeSpan.FromSeconds(3);

    public static async Task RunAsync()
    {
        using var echo = await Server.StartEchoAsync();
        using var service = await Server.StartServiceAsync();
        using var toEcho = echo.Channel();
        using var toService = service.Channel();
        await InventedShelf.ImportAsync(toService);
        var (nothing, predict) = (new Mixing.MixingClient(toEcho), new Mixing.MixingClient(toService));

        // Both are asked the same, and nobody the same twice in a row, so that nothing can be remembered. What the callers ask is written beforehand: it is they who share the processors.
        var requests = InventedShelf.Recipes.Select(text => new PredictRequest { Shelf = InventedShelf.Name, Recipe = new RecipeInput { Text = text } }).ToArray();
        var asked = new int[64];
        PredictRequest Next(int caller) => requests[(asked[caller]++ + 61 * caller) % requests.Length];
        Task Echo(int caller) => nothing.PredictAsync(Next(caller)).ResponseAsync;
        Task Predict(int caller) => predict.PredictAsync(Next(caller)).ResponseAsync;

        // CPU of the server's process for each call tells the same where other work takes the processors away.
        async Task<Round> Measure(Server server, int callers, Func<int, Task> call)
        {
            var (before, own) = (server.Cpu(), Environment.CpuUsage.TotalTime);
            var (perSecond, p50, p95, p99) = await Callers.RunAsync(callers, Duration, call);
            var calls = perSecond * Duration.TotalSeconds;
            return new Round(perSecond, p50, p95, p99, (server.Cpu() - before).TotalMicroseconds / calls, (Environment.CpuUsage.TotalTime - own).TotalMicroseconds / calls);
        }

        Console.WriteLine("callers   echo/s  predict/s  ratio  echo p95 ms  predict p50 ms  predict p95 ms  predict p99 ms  echo CPU us  predict CPU us  echo caller CPU us  predict caller CPU us");
        foreach (var callers in new[] { 1, 8, 32 })
        {
            await Callers.RunAsync(callers, Duration, Echo);
            await Callers.RunAsync(callers, Duration, Predict);
            var rounds = new List<(Round Echo, Round Predict)>();
            for (var round = 0; round < Rounds; round++)
            {
                rounds.Add((await Measure(echo, callers, Echo), await Measure(service, callers, Predict)));
            }

            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"{callers,7} {Median(r => r.Echo.PerSecond),8:0} {Median(r => r.Predict.PerSecond),10:0} {Median(r => r.Predict.PerSecond / r.Echo.PerSecond),6:0.00} {Median(r => r.Echo.P95),12:0.0} {Median(r => r.Predict.P50),15:0.0} {Median(r => r.Predict.P95),15:0.0} {Median(r => r.Predict.P99),15:0.0} {Median(r => r.Echo.CpuUs),12:0.0} {Median(r => r.Predict.CpuUs),15:0.0} {Median(r => r.Echo.CallerCpuUs),19:0.0} {Median(r => r.Predict.CallerCpuUs),22:0.0}"));

            double Median(Func<(Round Echo, Round Predict), double> of) => rounds.Select(of).Order().ElementAt(Rounds / 2);
        }
    }

    private sealed record Round(double PerSecond, double P50, double P95, double P99, double CpuUs, double CallerCpuUs);
}
