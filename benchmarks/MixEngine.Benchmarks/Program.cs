using MixEngine.Benchmarks.Matching;

if (args is ["quick", "search"])
{
    QuickSearch.Run();
    return 0;
}

Console.Error.WriteLine("usage: quick search");
return 1;
