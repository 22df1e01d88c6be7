using Grpc.Core;
using MixEngine.Core;
using MixEngine.Service.Calls;
using MixEngine.Service.Computing;
using MixEngine.Service.Mapping;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;
using MixEngine.Service.Telemetry;
using MixEngine.V1;
using MatchProgress = MixEngine.Core.MatchProgress;
using PaintWanted = MixEngine.Core.PaintWanted;
using View = MixEngine.V1.View;

namespace MixEngine.Service.Matching;

/// <summary>A search for a match within one call: it ends with the call, and can be watched.</summary>
internal sealed class MatchSearch(Workshop workshop)
{
    /// <summary>The first word of a search that takes longer, and the time between two: often enough for a bar that moves, seldom enough to cost nothing.</summary>
    private static readonly TimeSpan BetweenTwo = TimeSpan.FromMilliseconds(200);

    /// <summary>The answer.</summary>
    /// <exception cref="OperationCanceledException">Nobody waits for it any more.</exception>
    /// <exception cref="Refusal">The engine finds something wrong that only it can tell.</exception>
    public async Task<MatchResponse> FindAsync(MatchTarget target, Shelf shelf, MatchOptions options, View? view, ServerCallContext call, IProgress<MatchProgress>? progress = null)
    {
        // The time runs while the search waits for its turn too.
        using var patience = SearchTime.Of(call);
        return await workshop.Searches.RunAsync(() => Find(target, shelf, options, view, call, patience, progress), call.CancellationToken);
    }

    /// <summary>The best so far now and then, and at last the answer.</summary>
    public async IAsyncEnumerable<MatchWithProgressResponse> FindTelling(MatchTarget target, Shelf shelf, MatchOptions options, View? view, ServerCallContext call)
    {
        var latest = new Latest();
        var searching = FindAsync(target, shelf, options, view, call, latest);
        while (await Task.WhenAny(searching, Task.Delay(BetweenTwo, call.CancellationToken)) != searching && !call.CancellationToken.IsCancellationRequested)
        {
            if (latest.Take() is { } progress)
            {
                yield return new MatchWithProgressResponse
                {
                    Progress = new V1.MatchProgress { Done = progress.Done, Doing = progress.Doing, SoFar = MatchMapping.Write(target, progress.SoFar(), options, view) },
                };
            }
        }

        // Where the caller has gone this waits until the search has ended, and says so.
        yield return new MatchWithProgressResponse { Answer = await searching };
    }

    private static MatchResponse Find(
        MatchTarget target, Shelf shelf, MatchOptions options, View? view, ServerCallContext call, CancellationTokenSource patience, IProgress<MatchProgress>? progress)
    {
        var result = EngineRefusal.InField("must", () => RecipeSearch.Find(target, shelf.AtHand, options, patience.Token, progress, call.CancellationToken));
        call.CancellationToken.ThrowIfCancellationRequested();
        Measures.Searched(result.Proven ? (long)result.Recipes : 0);

        // What to buy is asked only where it is certain that the shelf does not do, however fine the drops.
        var wanted = result.Reached || !result.Proven || result.Undivided.DeltaE00 <= Math.Max(options.Tolerance, MatchOptions.Unseen) ? null : PaintWanted.For(target, shelf.AtHand, options, result.Best, patience.Token);
        call.CancellationToken.ThrowIfCancellationRequested();
        return MatchMapping.Write(target, result, options, view, wanted);
    }

    // Only the latest matters: nobody is told twice, and the search never waits.
    private sealed class Latest : IProgress<MatchProgress>
    {
        private MatchProgress? _latest;

        public void Report(MatchProgress value) => Volatile.Write(ref _latest, value);

        public MatchProgress? Take() => Interlocked.Exchange(ref _latest, null);
    }
}
