// Comparisons side by side in one run, each printed as lines that scripts can read; RESULTS.md tells what each is compared with.
//
//     dotnet run -c Release --project benchmarks/MixEngine.Benchmarks -- quick search
//     dotnet run -c Release --project benchmarks/MixEngine.Benchmarks -- measure --filter '*'
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using MixEngine.Benchmarks.Color;
using MixEngine.Benchmarks.Matching;
using MixEngine.Benchmarks.Service;

switch (args)
{
    case ["quick", "search"]:
        QuickSearch.Run();
        return 0;
    case ["quick", "growth"]:
        Growth.Run();
        return 0;
    case ["quick", "kernel"]:
        ForwardKernel.Run();
        return 0;
    case ["quick", "cancel"]:
        Cancellation.Run();
        return 0;
    case ["quick", "optimizer"]:
        return GeneralOptimizer.Run();
    case ["quick", "color"]:
        return Conversions.Run();
    case ["quick", "service"]:
        await WholeService.RunAsync();
        return 0;
    case ["measure", .. var options]:
        // In this process: the benchmark needs no project of its own made.
        BenchmarkSwitcher.FromTypes([typeof(MatchBenchmarks)]).Run(options, DefaultConfig.Instance.AddJob(Job.ShortRun.WithToolchain(InProcessEmitToolchain.Instance)));
        return 0;
    default:
        Console.Error.WriteLine("usage: quick (search | growth | kernel | cancel | optimizer | color | service) | measure");
        return 1;
}
