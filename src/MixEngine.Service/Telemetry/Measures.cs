using System.Diagnostics;
using System.Diagnostics.Metrics;
using Grpc.Core;

namespace MixEngine.Service.Telemetry;

/// <summary>What is counted and timed. Nothing that a user has entered is ever part of it.</summary>
internal static class Measures
{
    /// <summary>Name of the meter and of the source of spans.</summary>
    public const string Name = "MixEngine";

    private static readonly Meter Meter = new(Name);

    private static readonly Counter<long> Calls = Meter.CreateCounter<long>("mixengine.calls", "{call}", "Calls answered, by method and status.");

    private static readonly Histogram<double> CallSeconds = Meter.CreateHistogram<double>("mixengine.call.duration", "s", "Time from a call's arrival to the end of its answer, by method.");

    private static readonly Counter<long> Items = Meter.CreateCounter<long>("mixengine.items", "{item}", "Items of batches solved, by question and outcome.");

    private static readonly Histogram<double> SolveSeconds = Meter.CreateHistogram<double>("mixengine.solve.duration", "s", "Time to solve one item of a batch, by question.");

    private static readonly Counter<long> Recipes = Meter.CreateCounter<long>("mixengine.recipes.searched", "{recipe}", "Recipes looked at or ruled out by matches.");

    private static readonly ActivitySource Spans = new(Name);

    /// <summary>Begins the span of one item of a batch; null where nobody listens.</summary>
    public static Activity? BeginItem(string question) => Spans.StartActivity("item " + question);

    /// <summary>One call was answered.</summary>
    public static void Called(string method, StatusCode status, TimeSpan took)
    {
        if (!Calls.Enabled && !CallSeconds.Enabled)
        {
            return;
        }

        Calls.Add(1, new KeyValuePair<string, object?>("method", method), new KeyValuePair<string, object?>("status", status.ToString()));
        CallSeconds.Record(took.TotalSeconds, new KeyValuePair<string, object?>("method", method));
    }

    /// <summary>One item of a batch was solved.</summary>
    public static void Solved(string question, StatusCode outcome, TimeSpan took)
    {
        Items.Add(1, new KeyValuePair<string, object?>("question", question), new KeyValuePair<string, object?>("outcome", outcome.ToString()));
        SolveSeconds.Record(took.TotalSeconds, new KeyValuePair<string, object?>("question", question));
    }

    /// <summary>A match went through so many recipes.</summary>
    public static void Searched(long recipes) => Recipes.Add(recipes);
}
