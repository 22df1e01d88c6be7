using System.Diagnostics;
using System.Globalization;
using MixEngine.Colorimetry;
using MixEngine.Core;
using MixEngine.Planning;

// How a scheme grows: areas of six steps each on a shelf of 300 paints, doubled again and again.
// dotnet run -c Release --project benchmarks/MixEngine.SchemeScale [most areas, 1000]
//
// Baseline, two cores shared with a dozen other processes (so CPU seconds tell more than seconds), under a managed heap that may not grow
// beyond 200 MB (runtimeconfig.template.json; a program that needed more would end):
//      areas   seconds   CPU, s  CPU/area, ms  held after, MB  peak, MB  bottles  at least  worst dE00
//        125      34.5     27.5         220.2              11       325       36        11         3.8
//        250      33.1     27.6         110.6              14       337       43        20         5.2
//        500      36.3     36.5          72.9              19       360       53        22         4.9
//       1000      62.1     64.7          64.7              21       377       67        38         5.4
// Double the areas take less than double the work: choosing bottles has a fixed budget, and what it cannot prove it says ("at least", of what it
// looked at). Eight times the areas take a sixth more memory, half of it the answer itself and its garbage.
const int shelfSize = 300;
const int steps = 6;
var most = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : 1000;

// Invented paints, spread over what hex codes can say; the same on every run.
var random = new Random(20);
Paint PaintOf(int i)
{
    Span<byte> rgb = stackalloc byte[3];
    random.NextBytes(rgb);
    var described = new Paint { Id = $"pebble-{i:000}", Name = $"pebble {i:000}", Opacity = (OpacityWord)(i % 4), Optics = AbsorptionScattering.Clear, Grade = Grade.Color };
    return ColorGrade.Characterize(described, new HexColor(rgb[0], rgb[1], rgb[2]).ToXyz(), ViewingCondition.Default, ColorGrade.HexReading);
}

Paint[] shelf = [.. Enumerable.Range(0, shelfSize).Select(PaintOf)];
Console.WriteLine($"{"areas",6} {"seconds",9} {"CPU, s",8} {"CPU/area, ms",13} {"held after, MB",15} {"peak, MB",9} {"bottles",8} {"at least",9} {"worst dE00",11}");
for (var areas = Math.Max(1, most / 8); areas <= most; areas *= 2)
{
    var scheme = new Scheme
    {
        Name = "scale",
        Tolerance = 3,
        Figures = [new Figure { Name = "all", Areas = [.. Enumerable.Range(0, areas).Select(AreaOf)] }],
    };
    ResetPeak();
    var watch = Stopwatch.StartNew();
    var cpuBefore = Process.GetCurrentProcess().TotalProcessorTime;
    var plan = SchemeSolver.Solve(new SchemeInput(scheme, shelf, new Dictionary<string, Recipe>()), progress =>
    {
        if (progress.Done == 0)
        {
            Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {watch.Elapsed.TotalSeconds,7:0.0} s  {progress.Doing}"));
        }
    });
    var seconds = watch.Elapsed.TotalSeconds;
    var cpu = (Process.GetCurrentProcess().TotalProcessorTime - cpuBefore).TotalSeconds;
    var held = GC.GetTotalMemory(forceFullCollection: true) / 1e6;
    Console.WriteLine(string.Create(
        CultureInfo.InvariantCulture,
        $"{areas,6} {seconds,9:0.0} {cpu,8:0.0} {1000 * cpu / areas,13:0.0} {held,15:0} {PeakMb(),9:0} {plan.Palette.Bottles.Count,8} {plan.Palette.FewestPossible,9} {plan.WorstDeltaE00,11:0.0}"));
    GC.KeepAlive(plan);
}

// Linux keeps the largest size of a process, and begins anew when told so.
void ResetPeak()
{
    GC.Collect();
    if (OperatingSystem.IsLinux())
    {
        File.WriteAllText("/proc/self/clear_refs", "5");
    }
}

double PeakMb() => Process.GetCurrentProcess().PeakWorkingSet64 / 1e6;

Area AreaOf(int i)
{
    // A middle anywhere among what paints are mixed to.
    var middle = new Lab(25 + 50 * random.NextDouble(), -25 + 50 * random.NextDouble(), -20 + 55 * random.NextDouble());
    return new Area
    {
        Name = $"area {i}", Steps = steps,
        Aim = new AreaAim.Colors([AimColor.Of($"area {i}", middle, ViewingCondition.Default)]),
    };
}
