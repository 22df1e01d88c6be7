using System.Globalization;
using MixEngine.Accuracy;
using MixEngine.Core;

// How near predictions come to measured mixtures, and whether the stated errors are true. One line a protocol, for scripts.
var folder = Environment.GetEnvironmentVariable("MIXENGINE_MIXTURES");
if (folder is null || !File.Exists(Path.Combine(folder, "compositions.csv")))
{
    Console.WriteLine("accuracy skipped: set MIXENGINE_MIXTURES to a folder with compositions.csv and reflectance_10nm.csv");
    return 0;
}

var protocols = new Protocols(MeasuredMixtures.Read(folder), Beliefs.Default);
Score[] scores =
[
    protocols.OneLetDown(),
    protocols.Nearest("light-letdown", 0.1),
    protocols.Nearest("half-letdown", 0.5),
    protocols.LeaveOneOut(),
    protocols.ColorOnly(),
];
foreach (var score in scores)
{
    Console.WriteLine(score);
    foreach (var one in args.Contains("--each") ? score.HeldOut : [])
    {
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"   {one.Sample} error={one.Error:0.00} bound={one.Bound:0.00}"));
    }
}

var (planted, first, misses) = protocols.WrongLabels(20);
Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"wrong-label planted={planted} named-first={first}"));
foreach (var miss in misses)
{
    Console.WriteLine($"   {miss}");
}

return args.Contains("--check") ? Regression.Report(scores, first, planted) : 0;
