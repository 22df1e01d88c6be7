// How the service bears load.
//
//     dotnet run -c Release --project benchmarks/MixEngine.ServiceLoad                 predictions per second against an empty echo, with latencies
//     dotnet run -c Release --project benchmarks/MixEngine.ServiceLoad -- alone        what the parts of a prediction take, without any call
//     dotnet run -c Release --project benchmarks/MixEngine.ServiceLoad -- soak 20      minutes of mixed work, with memory and handles (Linux)
//
// Figures: RESULTS.md.
using System.Globalization;
using MixEngine.ServiceLoad;

switch (args)
{
    case []:
        await Throughput.RunAsync();
        return 0;
    case ["alone"]:
        await Alone.RunAsync();
        return 0;
    case ["soak", var minutes] when double.TryParse(minutes, NumberStyles.Float, CultureInfo.InvariantCulture, out var many) && many > 0:
        return await Soak.RunAsync(TimeSpan.FromMinutes(many)) ? 0 : 1;
    case ["echo", var socket]:
        await EmptyEcho.ServeAsync(socket);
        return 0;
    default:
        Console.Error.WriteLine("usage: [alone | soak MINUTES]");
        return 1;
}
