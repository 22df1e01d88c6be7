// How long until the first answer: cold (the command starts the service) and warm (it runs already), for the command compiled ahead of
// time and for the same command run by dotnet. Both start the same published service.
//
//     dotnet publish clients/cli -c Release
//     dotnet build clients/cli -c Release
//     dotnet run --project benchmarks/MixEngine.FirstAnswer -c Release
using System.Globalization;
using MixEngine.FirstAnswer;

const int ColdRuns = 5;
const int WarmRuns = 30;

string artifacts = Path.GetFullPath(Path.Combine(AppContext.BaseDirectory, "..", "..", ".."));
string published = Path.Combine(artifacts, "publish", "MixEngine.Cli", "release");
Command ahead = new("ahead of time", [Path.Combine(published, "mixengine")], published);
Command byDotnet = new("dotnet", ["dotnet", Path.Combine(artifacts, "bin", "MixEngine.Cli", "release", "mixengine.dll")], published);
foreach (string file in new[] { ahead.Words[0], byDotnet.Words[1] }.Where(file => !File.Exists(file)))
{
    Console.Error.WriteLine($"{file} is not there: dotnet publish clients/cli -c Release && dotnet build clients/cli -c Release");
    return 1;
}

using var home = new ColdHome();
Console.WriteLine($"First answer to: mixengine predict, median of {ColdRuns} cold and {WarmRuns} warm runs, {Environment.ProcessorCount} processors");
Console.WriteLine();
Console.WriteLine($"{"",-16}{"cold",10}{"warm",10}");
(double Cold, double Warm) a = Measure(ahead);
(double Cold, double Warm) d = Measure(byDotnet);
Console.WriteLine($"{"ratio",-16}{d.Cold / a.Cold,9:0.0}x{d.Warm / a.Warm,9:0.0}x");
return 0;

(double Cold, double Warm) Measure(Command command)
{
    home.Prepare(command);
    double cold = Median(ColdRuns, () =>
    {
        home.EndService();
        return home.Ask(command);
    });
    double warm = Median(WarmRuns, () => home.Ask(command));
    Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{command.Name,-16}{cold,7:0} ms{warm,7:0} ms"));
    return (cold, warm);
}

static double Median(int runs, Func<TimeSpan> measure)
{
    double[] sorted = [.. Enumerable.Range(0, runs).Select(_ => measure().TotalMilliseconds).Order()];
    return sorted[runs / 2];
}
